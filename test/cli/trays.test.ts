import { existsSync, readFileSync, statSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { oddPlace } from "../../src/analysis/marking.ts";
import type { Key } from "../../src/model/key.ts";
import type { BlindTray } from "../../src/model/packet.ts";
import { checksCommitment } from "../../src/seal/verify.ts";
import { readyPlan } from "../design/scenario.ts";
import { cloche, folder, inProcess } from "./terminal.ts";

const files = folder();
vi.setConfig({ testTimeout: 60_000, hookTimeout: 300_000 });
beforeAll(async () => {
  expect((await cloche("--version")).code).toBe(0);
});
afterAll(() => files.remove());

type Document = {
  study: string;
  commitment: string;
  blind: BlindTray[];
  sealed: { seed: string; salt: string; key: Key };
};
const short = { people: 12, products: [{ name: "current" }, { name: "new" }] };

describe("trays from a plan file", () => {
  test("a plan as the app has it: both halves, whose commitment holds; a warning says that the key is in it", async () => {
    const file = files.put("plan.json", JSON.stringify(readyPlan()));
    const { code, out, err } = await cloche("trays", file, "--json");
    const { commitment, blind, sealed } = JSON.parse(out) as Document;
    expect(code).toBe(0);
    expect(err).toBe("This output holds the key: it tells which code is which product.\n");
    expect(blind).toHaveLength(27);
    expect(sealed.key.trays.map(({ samples }) => samples.map((sample) => sample.code))).toEqual(
      blind.map(({ codes }) => codes),
    );
    expect(checksCommitment({ key: sealed.key, salt: sealed.salt }, commitment)).toBe(true);
  });
  test("the same seed gives the same orders, another one others; codes are new each time", async () => {
    const file = files.put("short.json", JSON.stringify(short));
    const drawn = async (seed: string) => {
      const { blind, sealed } = JSON.parse((await inProcess("trays", file, "--seed", seed, "--json")).out) as Document;
      return {
        orders: sealed.key.trays.map(({ order }) => order).join(" "),
        codes: blind.map(({ codes }) => codes.join(" ")).join(" "),
      };
    };
    const [one, again, other] = [await drawn("ab12"), await drawn("AB12"), await drawn("ab13")];
    expect(again?.orders).toBe(one?.orders);
    expect(other?.orders).not.toBe(one?.orders);
    expect(again?.codes).not.toBe(one?.codes);
  });
  test("a short plan by hand: 12 trays in one wave, and notices of what it leaves open", async () => {
    const { code, out, err } = await inProcess("trays", files.put("short.json", JSON.stringify(short)), "--json");
    const { blind, sealed } = JSON.parse(out) as Document;
    expect(code).toBe(0);
    expect(blind.map(({ tray, wave, spare }) => [tray, wave, spare])).toEqual(
      Array.from({ length: 12 }, (_, at) => [at + 1, 1, false]),
    );
    expect(sealed.key.trays.map(({ order }) => (oddPlace(order) ?? 0) + 1).toSorted()).toEqual([
      1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3,
    ]);
    expect(err).toMatch(/12 people are in one wave/);
    expect(err).toMatch(/could not be locked yet/);
  });
  test("--blind and --key put each half into a file of its own; nothing of the key is printed", async () => {
    const plan = files.put("short.json", JSON.stringify(short));
    const { code, out, err } = await inProcess(
      "trays",
      plan,
      "--blind",
      files.at("b.json"),
      "--key",
      files.at("k.json"),
    );
    expect(code).toBe(0);
    const blind = readFileSync(files.at("b.json"), "utf8");
    const sealed = JSON.parse(readFileSync(files.at("k.json"), "utf8")) as Document;
    for (const { product, batch } of sealed.sealed.key.trays.flatMap(({ samples }) => samples)) {
      expect(batch).toBe("1");
      for (const text of [blind, out, err]) expect(text).not.toContain(product);
    }
    expect(blind).not.toContain("order");
    expect(out).not.toContain(sealed.sealed.seed);
    // read and write for the owner alone
    expect(statSync(files.at("k.json")).mode & 0o077).toBe(0);
  });
  test("a key file that exists is not overwritten", async () => {
    const plan = files.put("short.json", JSON.stringify(short));
    const kept = files.put("kept.json", "an older key");
    const { code, err } = await inProcess("trays", plan, "--key", kept);
    expect(code).toBe(2);
    expect(err).toContain("file already exists");
    expect(readFileSync(kept, "utf8")).toBe("an older key");
  });
  test("a blind file that exists: no key file is left behind, and the old file stays", async () => {
    const plan = files.put("short.json", JSON.stringify(short));
    const kept = files.put("older.json", "an older draw");
    const { code, out, err } = await inProcess("trays", plan, "--key", files.at("new-key.json"), "--blind", kept);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(/older\.json could not be written: file already exists/);
    expect(err).not.toContain("holds the key");
    expect(existsSync(files.at("new-key.json"))).toBe(false);
    expect(readFileSync(kept, "utf8")).toBe("an older draw");
  });
  test("as text: a line for each tray, codes in both halves", async () => {
    const { out } = await inProcess("trays", files.put("short.json", JSON.stringify(short)), "--seed", "ab12");
    expect(out.match(/^ {2}12-\d .*$/gm)).toHaveLength(2);
    expect(out).toContain("Seed ab12");
  });
});

describe("trays of other methods", () => {
  const drawn = async (plan: unknown) => {
    const { code, out } = await inProcess("trays", files.put("method.json", JSON.stringify(plan)), "--json");
    expect(code).toBe(0);
    return JSON.parse(out) as Document & { seats: { seat: number; trays: number[] }[] };
  };
  test("duo-trio with a constant reference, three trays each: the reference is named, a seat holds three trays", async () => {
    const reference = { kind: "constant", product: "new" };
    const { sealed, seats } = await drawn({ ...short, method: "duo-trio", repeats: 3, reference });
    const [batch] = sealed.key.trays.flatMap((tray) => (tray.reference ? [tray.reference] : []));
    expect(sealed.key.trays).toHaveLength(36);
    expect(new Set(sealed.key.trays.map(({ reference: cup }) => cup?.product))).toEqual(new Set([batch?.product]));
    expect(new Set(sealed.key.trays.map(({ order }) => order))).toEqual(new Set(["B:AB", "B:BA"]));
    expect(seats.map(({ trays }) => trays.length)).toEqual(Array(12).fill(3));
    const file = files.put("method.json", JSON.stringify({ ...short, method: "duo-trio", reference }));
    const { out } = await inProcess("trays", file);
    expect(out).toMatch(/tray +order +reference +samples/);
    expect(out).toMatch(/B:AB +new \(1\)/);
  });
  test("three-alternative: the product that is expected to have more stands in each place equally often", async () => {
    const properties = [{ comparative: "juicier", expected: "new" }];
    const { sealed } = await drawn({ ...short, method: "three-alternative", properties });
    const orders = sealed.key.trays.map(({ order }) => order);
    for (const order of ["BAA", "ABA", "AAB"]) expect(orders.filter((each) => each === order)).toHaveLength(4);
  });
  test.each([
    ["paired-difference", 2],
    ["tetrad", 4],
    ["same-different", 2],
    ["a-not-a", 1],
    ["paired-preference", 2],
  ])("%s: %i coded cups a tray, in the key what is in each", async (method, cups) => {
    const { blind, sealed } = await drawn({ ...short, method });
    expect(blind.map(({ codes }) => codes.length)).toEqual(Array(12).fill(cups));
    expect(sealed.key.trays.map(({ samples }) => samples.map(({ code }) => code))).toEqual(
      blind.map(({ codes }) => codes),
    );
  });

  test("ranking: four coded cups a tray, each order equally often; the order expected may be written by names", async () => {
    const products = ["current", "new", "rested", "held"].map((name) => ({ name }));
    const ranking = { least: "least juicy", most: "most juicy", predicted: ["current", "held", "new", "rested"] };
    const plan = { method: "ranking", people: 12, products, ranking };
    const { blind, sealed } = await drawn(plan);
    expect(blind.map(({ codes }) => codes.length)).toEqual(Array(12).fill(4));
    const orders = sealed.key.trays.map(({ order }) => order);
    expect([...new Set(orders)].map((order) => orders.filter((other) => other === order).length)).toEqual([3, 3, 3, 3]);
  });
});

describe("a plan file that trays cannot be drawn from: exit code 2, one sentence, nothing printed", () => {
  test.each<[string, string, RegExp]>([
    ["no JSON", "people: 12", /bad\.json is not valid JSON/],
    ["a list", "[]", /the whole document/],
    ["no people", JSON.stringify({ products: short.products }), /“people” must be a whole number/],
    ["one product", JSON.stringify({ ...short, products: [{ name: "new" }] }), /one product/],
    ["a method that nobody knows", JSON.stringify({ ...short, method: "sorting" }), /“method” must be one of triangle/],
    ["a field nobody knows", JSON.stringify({ ...short, panel: 3 }), /no field named panel/],
    [
      "waves for fewer people",
      JSON.stringify({ ...short, waves: [{ people: 3, batches: { current: ["1"], new: ["1"] } }] }),
      /waves serve 3, the plan says 12/,
    ],
    [
      "a wave without a batch",
      JSON.stringify({ ...short, waves: [{ people: 12, batches: { new: ["1"] } }] }),
      /“current”/,
    ],
    [
      "a reference of a kind that nobody knows",
      JSON.stringify({ ...short, method: "duo-trio", reference: { kind: "changing" } }),
      /“reference\.kind” must be/,
    ],
    [
      "a property that expects no product of the plan",
      JSON.stringify({
        ...short,
        method: "paired-difference",
        properties: [{ comparative: "juicier", expected: "x" }],
      }),
      /“properties\.0\.expected” must be/,
    ],
    ["too many people at once", JSON.stringify({ ...short, people: 900 }), /900 trays need more/],
  ])("%s", async (_, text, sentence) => {
    const { code, out, err } = await inProcess("trays", files.put("bad.json", text));
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
  test("a seed that is no hex", async () => {
    const plan = files.put("short.json", JSON.stringify(short));
    const { code, err } = await inProcess("trays", plan, "--seed", "xyz");
    expect(code).toBe(2);
    expect(err).toMatch(/--seed is “xyz”/);
  });
});
