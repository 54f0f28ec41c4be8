import { describe, expect, test } from "vitest";
import { brokenLinks, headsOf, missingFrom } from "../../src/log/chain.ts";
import { lead, tabletA, tabletB, Writer } from "./example.ts";

const log = new Writer();
const facts = [
  log.lock(),
  ...log.ballot(tabletA, 1, "309"),
  ...log.ballot(tabletB, 2, "264"),
  ...log.ballot(tabletA, 3, "385"),
];
const heads = headsOf(facts);
const without = (device: string, ...seqs: number[]) =>
  facts.filter((fact) => fact.device !== device || !seqs.includes(fact.seq));

describe("links of the devices' chains", () => {
  test("an untouched log has none that is broken, in any order and with repeats", () => {
    expect(brokenLinks(facts)).toEqual([]);
    expect(brokenLinks([...facts, ...facts].reverse())).toEqual([]);
  });
  test("an event cut from the middle: the one after it does not follow anything", () => {
    const after = facts.find(({ device, seq }) => device === tabletA && seq === 4);
    expect(brokenLinks(without(tabletA, 3))).toEqual([after?.id]);
  });
  test("the first event of a device cut: the second one does not follow", () => {
    expect(brokenLinks(without(tabletB, 1))).toHaveLength(1);
  });
  test("an event whose text was changed: the one after it names another hash", () => {
    const changed = facts.map((fact) =>
      fact.device === tabletA && fact.seq === 2 ? { ...fact, hash: "f".repeat(64) } : fact,
    );
    expect(brokenLinks(changed)).toHaveLength(1);
  });
  test("a first event that names one before it", () => {
    const changed = facts.map((fact) => (fact.device === lead ? { ...fact, prev: "f".repeat(64) } : fact));
    expect(brokenLinks(changed)).toHaveLength(1);
  });
  test("two events that claim one place are both shown", () => {
    const [first] = facts;
    if (!first) throw new Error("the example has events");
    const rival = { ...first, id: "01900000-0000-7000-8000-0000000000ff", hash: "e".repeat(64) };
    expect(brokenLinks([...facts, rival]).toSorted()).toEqual([first.id, rival.id].toSorted());
  });
});

describe("what the heads name and the log lacks", () => {
  test.each<[string, ReturnType<typeof without>, number]>([
    ["nothing", facts, 0],
    ["one in the middle of a chain", without(tabletA, 3), 1],
    ["the end of a chain", without(tabletA, 5, 6), 2],
    ["a whole device", without(tabletB, 1, 2, 3), 3],
  ])("%s", (_, held, missing) => {
    expect(missingFrom([heads], held)).toBe(missing);
  });
  test("of two heads the higher one of each device counts", () => {
    expect(missingFrom([{ [tabletA]: 2 }, { [tabletA]: 8, [tabletB]: 1 }], facts)).toBe(2);
  });
  test("what came after the heads, or twice, makes up for nothing", () => {
    expect(missingFrom([{ [tabletA]: 4 }], [...without(tabletA, 2), ...without(tabletA, 2)])).toBe(1);
  });
});
