import { describe, expect, test } from "vitest";
import { ordersOf } from "../../src/design/method.ts";
import { orderCounts } from "../../src/design/orders.ts";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { emptyPlan } from "../../src/design/readiness.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { orderBalance } from "../../src/design/williams.ts";
import type { Plannable } from "../../src/model/method.ts";
import { blindPacket, questionsOf } from "../../src/model/packet.ts";
import type { Plan } from "../../src/model/plan.ts";
import { read } from "../../src/model/schema.ts";
import { chewPlan, inert, linePlan, preferencePlan, rankingPlan } from "./scenario.ts";

const study = "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee";
const compared = (method: Plannable, count: number) => ({
  ...emptyPlan(),
  method,
  products: Array.from({ length: count }, (_, at) => ({ id: `product ${at}`, name: "", preparation: "" })),
});
const made = (plan: Plan, seed = "5eed") => makeTrays(plan, study, { seed, codes: seeded("codes", "test") });
const packetOf = (plan: Plan) => blindPacketOf(plan, study, made(plan).blind, "c".repeat(64));

describe("trays of a preference", () => {
  const plan = preferencePlan();
  const { blind, key } = made(plan);
  test("hold two codes, and each of the two orders equally often, pair by pair", () => {
    expect(blind.every(({ codes }) => codes.length === 2)).toBe(true);
    const planned = new Set(blind.filter(({ spare }) => !spare).map(({ tray }) => tray));
    expect(orderCounts(key, plan, planned)).toEqual([
      { order: "AB", trays: 12 },
      { order: "BA", trays: 12 },
    ]);
    for (let from = 0; from < 24; from += 2) {
      expect(new Set(key.trays.slice(from, from + 2).map(({ order }) => order)).size).toBe(2);
    }
  });
  test("the packet says whether no preference is an answer, and nothing of its rule", () => {
    const packets = (["not-offered", "dropped", "split", "three-way"] as const).map((noPreference) =>
      packetOf(preferencePlan({ noPreference })),
    );
    expect(packets.map(({ noPreference }) => noPreference)).toEqual([false, true, true, true]);
    expect(JSON.stringify(packets[1])).toBe(JSON.stringify(packets[3]));
    expect(packets[0]).toMatchObject({ wording: "paired-preference-1", line: null });
  });
});

describe("trays of a line scale", () => {
  const plan = linePlan();
  const { blind, key } = made(plan);
  test("hold a code for each product, in Williams orders, each equally often", () => {
    expect(blind.every(({ codes }) => codes.length === 3)).toBe(true);
    const planned = new Set(blind.filter(({ spare }) => !spare).map(({ tray }) => tray));
    expect(orderCounts(key, plan, planned).map(({ trays }) => trays)).toEqual([2, 2, 2, 2, 2, 2]);
  });
  test("so that each product stands in each place, and after each other product, equally often", () => {
    const served = key.trays.slice(0, 12).map(({ order }) => order);
    const { places, follows } = orderBalance(served, 3);
    expect(places).toEqual([
      [4, 4, 4],
      [4, 4, 4],
      [4, 4, 4],
    ]);
    expect(follows).toEqual([
      [0, 4, 4],
      [4, 0, 4],
      [4, 4, 0],
    ]);
  });
  test("the key names product and batch of each code, as the order's letters say", () => {
    for (const { order, samples } of key.trays) {
      expect(samples.map(({ product }) => "ABC"[plan.products.findIndex(({ id }) => id === product)]).join("")).toBe(
        order,
      );
      expect(samples.every(({ batch }) => batch !== "")).toBe(true);
    }
  });
  test("the packet names the length and the questions, first bite first, and fits its schema", () => {
    const [juicy] = plan.scale.attributes;
    if (!juicy) throw new Error("no attribute");
    const salty = { ...juicy, id: study, name: "Saltiness", adjective: "salty", moment: { at: "first-bite" as const } };
    const packet = packetOf({ ...plan, scale: { lengthMm: 150, attributes: [juicy, salty] } });
    expect(read(blindPacket, packet)).toEqual(packet);
    expect(packet.line?.attributes.map(({ adjective }) => adjective)).toEqual(["salty", "juicy"]);
    expect(packet).toMatchObject({ wording: "line-scale-1", noPreference: false, line: { lengthMm: 150 } });
    expect(questionsOf(packet, packet.trays[0] ?? { codes: [] })).toBe(6);
  });
});

describe("trays of a ranking", () => {
  const plan = rankingPlan();
  const { blind, key } = made(plan);
  test("hold a code for each of four products, in Williams orders: places and carry-over even", () => {
    expect(blind.every(({ codes }) => codes.length === 4)).toBe(true);
    const served = key.trays.slice(0, 12).map(({ order }) => order);
    const { places, follows } = orderBalance(served, 4);
    expect(places.flat()).toEqual(Array(16).fill(3));
    expect(follows.flatMap((row, product) => row.filter((_, before) => before !== product))).toEqual(Array(12).fill(3));
  });
  test("the packet says between which ends, and nothing of the name or the order that is expected", () => {
    const { predicted, name, least, most, definition } = plan.ranking;
    const packet = packetOf(plan);
    expect(read(blindPacket, packet)).toEqual(packet);
    expect(packet).toMatchObject({
      wording: "ranking-1",
      ranking: { least, most, definition },
      line: null,
      properties: [],
    });
    expect(JSON.stringify(packet)).not.toContain(predicted[0]);
    expect(JSON.stringify(packet)).not.toContain(`"${name}"`);
    expect(packetOf(linePlan({ ranking: plan.ranking })).ranking).toBeNull();
  });
});

describe("trays of chewed portions", () => {
  const plan = chewPlan();
  const { blind, key, seats } = made(plan);
  test("hold a code for each product, the control among them, in Williams orders, each equally often", () => {
    expect(blind.every(({ codes }) => codes.length === 3)).toBe(true);
    const planned = new Set(blind.filter(({ spare }) => !spare).map(({ tray }) => tray));
    expect(orderCounts(key, plan, planned).map(({ trays }) => trays)).toEqual([6, 6, 6, 6, 6, 6]);
  });
  test("a person has as many trays as repeats, each in another order and with codes of its own", () => {
    const orderOf = new Map(key.trays.map(({ tray, order }) => [tray, order]));
    for (const { trays } of seats) {
      expect(new Set(trays.map((tray) => orderOf.get(tray))).size).toBe(3);
      const codes = blind.filter(({ tray }) => trays.includes(tray)).flatMap((tray) => tray.codes);
      expect(new Set(codes).size).toBe(9);
    }
  });
  test("the packet says how to chew, that all is spat out, and nothing of balance, control or what matters", () => {
    const packet = packetOf(plan);
    expect(read(blindPacket, packet)).toEqual(packet);
    expect(packet).toMatchObject({ wording: "chew-and-weigh-1", line: null, swallow: "spit", retaste: false });
    expect(packet.chew).toEqual({ seconds: 15, mouth: "rinsed-and-waited", waitSeconds: 30, rinseGrams: 10 });
    expect(questionsOf(packet, packet.trays[0] ?? { codes: [] })).toBe(3);
    expect(JSON.stringify(packet)).not.toContain(inert);
    expect(packetOf(linePlan()).chew).toBeNull();
  });
});

test("a method has no orders for a number of products that it does not compare", () => {
  expect(ordersOf(compared("triangle", 3))).toEqual([]);
  expect(ordersOf(compared("line-scale", 1))).toEqual([]);
  expect(ordersOf(compared("line-scale", 7))).toEqual([]);
  expect(ordersOf(compared("ranking", 2))).toEqual([]);
  expect(ordersOf(compared("line-scale", 2))).toEqual(["AB", "BA"]);
});
