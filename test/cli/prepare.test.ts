import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";

type Part = { name: string; result: string; except: string[] };
type Sources = { stamp: string; content: string };
// plain JavaScript, since it runs before anything is compiled: its shape is told here
const { isBuilt, noteBuilt, sourcesNow } = (await import("../../src/cli/freshness.js" as string)) as {
  isBuilt(top: string, part: Part): boolean;
  noteBuilt(top: string, part: Part, sources: Sources): void;
  sourcesNow(top: string, part: Part): Sources;
};
const { isInstalled } = (await import("../../src/cli/prepare.js" as string)) as { isInstalled(top: string): boolean };
const { nodeComplaint } = (await import("../../src/cli/node-version.js" as string)) as {
  nodeComplaint(version: string): string;
};

let top = "";
beforeEach(() => {
  top = mkdtempSync(join(tmpdir(), "cloche-prepare-"));
});
afterEach(() => rmSync(top, { recursive: true, force: true }));

/** Writes a file of the invented checkout, with a time in seconds. */
function put(path: string, text: string, time: number) {
  const file = join(top, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
  utimesSync(file, time, time);
  utimesSync(dirname(file), time, time);
}

describe("is a part built from the sources as they are?", () => {
  const part = { name: "rooms", result: "dist/main.js", except: ["src/panel"] };
  const fresh = () => isBuilt(top, part);
  beforeEach(() => {
    put("src/a.ts", "one", 1_000);
    put("package.json", "{}", 1_000);
    put("dist/main.js", "built", 900);
    noteBuilt(top, part, sourcesNow(top, part));
  });

  test("yes, as long as nothing changed", () => {
    expect(fresh()).toBe(true);
  });
  test("no, when its result is missing", () => {
    rmSync(join(top, "dist/main.js"));
    expect(fresh()).toBe(false);
  });
  test.each([
    ["a changed source", () => put("src/a.ts", "two", 2_000)],
    ["an older source put in its place", () => put("src/a.ts", "older", 500)],
    ["a new source", () => put("src/b.ts", "new", 2_000)],
    ["a deleted source", () => rmSync(join(top, "src/a.ts"))],
    ["another package-lock.json", () => put("package-lock.json", "{}", 2_000)],
    ["another vite.config.ts", () => put("vite.config.ts", "", 2_000)],
    ["a picture in public", () => put("public/icon.svg", "", 2_000)],
  ])("no, with %s", (_, change) => {
    change();
    expect(fresh()).toBe(false);
  });
  test("yes, with a change in a folder that it is not built from", () => {
    put("src/panel/a.tsx", "one", 1_000);
    utimesSync(join(top, "src"), 1_000, 1_000);
    put("src/panel/a.tsx", "two", 2_000);
    expect(fresh()).toBe(true);
  });
  test("yes, when files were only touched: the content decides, once", () => {
    put("src/a.ts", "one", 3_000);
    expect(fresh()).toBe(true);
    const { stamp } = JSON.parse(readFileSync(join(top, "dist/.built-rooms"), "utf8")) as Sources;
    expect(stamp).toBe(sourcesNow(top, part).stamp);
  });
  test("yes, when somebody built by hand after the last change", () => {
    put("src/a.ts", "two", 2_000);
    const later = statSync(join(top, "dist/.built-rooms")).mtimeMs / 1000 + 10;
    put("dist/main.js", "built again", later);
    expect(fresh()).toBe(true);
  });
  test("yes, when somebody built by hand and no note was ever made", () => {
    rmSync(join(top, "dist/.built-rooms"));
    const later = statSync(top).mtimeMs / 1000 + 10;
    put("dist/main.js", "built", later);
    expect(fresh()).toBe(true);
  });
  test("no, with a note that cannot be read and sources newer than the result", () => {
    put("dist/.built-rooms", "{", 900);
    put("src/a.ts", "two", 2_000);
    expect(fresh()).toBe(false);
  });
  test("a change made while it was building is seen: the sources are taken before", () => {
    const before = sourcesNow(top, part);
    put("src/a.ts", "two", 2_000);
    noteBuilt(top, part, before);
    expect(fresh()).toBe(false);
  });
});

describe("is everything installed that package-lock.json names?", () => {
  const lock = (packages: Record<string, object>) =>
    JSON.stringify({ packages: { "": { name: "cloche" }, ...packages } });
  test("no, without node_modules", () => {
    put("package-lock.json", lock({}), 1_000);
    expect(isInstalled(top)).toBe(false);
  });
  test("yes, when it was installed after the lock file was written", () => {
    put("package-lock.json", lock({}), 1_000);
    put("node_modules/.package-lock.json", "{}", 2_000);
    expect(isInstalled(top)).toBe(true);
  });
  test.each([
    ["yes, when the newer lock file names the same versions", { "node_modules/a": { version: "1.0.0" } }, true],
    ["no, when it names another version", { "node_modules/a": { version: "1.0.1" } }, false],
    [
      "no, when it names one more",
      { "node_modules/a": { version: "1.0.0" }, "node_modules/b": { version: "1.0.0" } },
      false,
    ],
    [
      "yes, when what is missing is optional, made for another system",
      { "node_modules/a": { version: "1.0.0" }, "node_modules/b": { version: "1.0.0", optional: true } },
      true,
    ],
  ])("%s", (_, packages, installed) => {
    put(
      "node_modules/.package-lock.json",
      JSON.stringify({ packages: { "node_modules/a": { version: "1.0.0" } } }),
      1_000,
    );
    put("package-lock.json", lock(packages), 2_000);
    expect(isInstalled(top)).toBe(installed);
  });
});

describe("Node versions, by the range of package.json (>=20.19 <21 || >=22.12)", () => {
  test.each(["v20.19.0", "v20.20.2", "v22.12.0", "v22.20.1", "v23.0.0", "v24.1.0"])("%s will do", (version) => {
    expect(nodeComplaint(version)).toBe("");
  });
  test.each(["v12.22.0", "v18.20.4", "v20.18.3", "v21.7.3", "v22.11.0"])("%s is refused in one line", (version) => {
    const line = nodeComplaint(version);
    expect(line).toContain(version);
    expect(line).not.toContain("\n");
  });
});
