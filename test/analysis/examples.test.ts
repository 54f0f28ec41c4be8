import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const folder = new URL("../../src/analysis/", import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"));
const examples = files.flatMap((file) =>
  [...readFileSync(new URL(file, folder), "utf8").matchAll(/Example:?\s+(.+?) \/\/ (.+?)\s*(?:\*\/)?$/gm)].map(
    ([, code = "", shown = ""]) => ({ file, code, shown }),
  ),
);

test("the analysis room has examples to run", () => {
  expect(examples.length).toBeGreaterThanOrEqual(20);
});

test.each(examples)("example in $file: $code is $shown", async ({ code, shown }) => {
  const modules = await Promise.all(
    files.map((file): Promise<Record<string, unknown>> => import(/* @vite-ignore */ new URL(file, folder).href)),
  );
  const names = Object.assign({}, ...modules) as Record<string, unknown>;
  const value = evaluate(code, names);
  compare(value, evaluate(`(${shown})`, {}));
});

function evaluate(code: string, names: Record<string, unknown>): unknown {
  return new Function(...Object.keys(names), `return ${code}`)(...Object.values(names));
}

/** As many digits as the docstring shows, at most 12. */
function compare(value: unknown, shown: unknown): void {
  if (typeof shown === "number") {
    expect(typeof value).toBe("number");
    expect(Math.abs(Number(value) - shown)).toBeLessThanOrEqual(2e-12 * Math.max(Math.abs(shown), 1e-3));
  } else if (shown !== null && typeof shown === "object") {
    for (const [key, part] of Object.entries(shown)) compare((value as Record<string, unknown>)[key], part);
    expect(Object.keys(Object(value))).toEqual(Object.keys(shown));
  } else expect(value).toEqual(shown);
}
