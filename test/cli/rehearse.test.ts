import { afterAll, describe, expect, test } from "vitest";
import { rehearsal } from "../../src/model/rehearsal.ts";
import { read } from "../../src/model/schema.ts";
import { folder, inProcess } from "./terminal.ts";

const files = folder();
afterAll(files.remove);

const plan = files.put(
  "plan.json",
  JSON.stringify({ method: "triangle", people: 24, products: [{ name: "current" }, { name: "new" }] }),
);

describe("cloche rehearse", () => {
  test("says how often such a study finds what is there and cries wolf, beside the exact test", async () => {
    const { code, out } = await inProcess("rehearse", plan, "--times", "20", "--seed", "a");
    expect(code).toBe(0);
    const text = out.replaceAll("\u00a0", " ");
    expect(text).toContain("Invented people, nobody tasted anything. Start of the luck: a");
    expect(text).toMatch(/30 % of people can tell\. \d+ of 20 studies found a difference\./);
    // binomial tails of 13 of 24 at 0.5333 and 1/3: 0.5505 and 0.0284 (R 4.2.2)
    expect(text).toContain("The exact test of the plan gives 55.0 %.");
    expect(text).toContain("The exact test of the plan gives 2.8 %.");
    expect(text).toContain("Study 3, 24 answers");
  });
  test("the same start gives the same document; JSON fits the schema and says that it is invented", async () => {
    const twice = await Promise.all(
      [1, 2].map(() => inProcess("rehearse", plan, "--times", "10", "--seed", "b", "--effect", "0.5", "--json")),
    );
    expect(twice[0]?.out).toBe(twice[1]?.out);
    const { invented, throughServer, ...rest } = JSON.parse(twice[0]?.out ?? "") as Record<string, unknown>;
    expect(invented).toBe(true);
    expect(throughServer).toEqual([]);
    expect(read(rehearsal, rest).rightly.effect).toBe(0.5);
  });
  test.each([
    [["--times", "5"], "--times"],
    [["--effect", "1.5"], "--effect"],
    [["--deviation", "0"], "--deviation"],
    [["--bogus"], "--bogus"],
  ])("%j is refused by name, with exit code 2", async (words, named) => {
    const { code, out, err } = await inProcess("rehearse", plan, ...words);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain(named);
  });
});
