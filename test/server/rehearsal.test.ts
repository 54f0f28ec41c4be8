import { afterAll, expect, test } from "vitest";
import { folder, inProcess } from "../cli/terminal.ts";

const files = folder();
afterAll(files.remove);

test.each([
  ["a choice", { method: "triangle", people: 8 }],
  ["marks", { method: "line-scale", people: 6, products: [{ name: "one" }, { name: "two" }] }],
])("a rehearsal of %s goes over HTTP and comes back whole", async (name, written) => {
  const plan = files.put(`${name}.json`, JSON.stringify(written));
  const { code, out, err } = await inProcess("rehearse", plan, "--times", "10", "--through-server", "--json");
  expect({ code, err }).toEqual({ code: 0, err: "" });
  const { throughServer, examples } = JSON.parse(out) as {
    throughServer: { trays: number; events: number; verdict: string }[];
    examples: unknown[];
  };
  expect(throughServer.map(({ trays }) => trays)).toEqual([written.people, written.people, written.people]);
  expect(throughServer.every(({ events, trays }) => events >= 3 * trays + 4)).toBe(true);
  expect(examples).toHaveLength(3);
});
