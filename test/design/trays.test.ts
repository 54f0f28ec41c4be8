import { describe, expect, test, vi } from "vitest";
import { oddPlace } from "../../src/analysis/marking.ts";
import { orderCounts } from "../../src/design/orders.ts";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { key as keySchema } from "../../src/model/key.ts";
import { blindPacket } from "../../src/model/packet.ts";
import type { Plan } from "../../src/model/plan.ts";
import { read } from "../../src/model/schema.ts";
import { problemOf } from "../problem-of.ts";
import { readyPlan } from "./scenario.ts";

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const study = "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee";
const commitment = "c".repeat(64);
const made = (plan: Plan, seed = "5eed", codes = "code source") =>
  makeTrays(plan, study, { seed, codes: seeded(codes, "test") });

describe("trays of a plan for 24 people, 3 spares, two waves", () => {
  const plan = readyPlan();
  const { blind, key, seats, pots } = made(plan);

  test("are numbered from 1, spares last and marked, wave by wave, the last wave with the most spares", () => {
    expect(blind.map(({ tray }) => tray)).toEqual(Array.from({ length: 27 }, (_, at) => at + 1));
    expect(blind.filter(({ spare }) => spare).map(({ tray, wave }) => [tray, wave])).toEqual([
      [25, 1],
      [26, 2],
      [27, 2],
    ]);
    expect(blind.slice(0, 24).map(({ wave }) => wave)).toEqual([...Array(12).fill(1), ...Array(12).fill(2)]);
  });
  test("give each seat one planned tray and spares to nobody", () => {
    expect(seats).toEqual(Array.from({ length: 24 }, (_, at) => ({ seat: at + 1, trays: [at + 1] })));
  });
  test("hold each order equally often, and every block of six trays all six", () => {
    const planned = new Set(blind.filter(({ spare }) => !spare).map(({ tray }) => tray));
    expect(orderCounts(key, plan, planned).map(({ trays }) => trays)).toEqual([4, 4, 4, 4, 4, 4]);
    for (let from = 0; from < 24; from += 6) {
      expect(new Set(key.trays.slice(from, from + 6).map(({ order }) => order)).size).toBe(6);
    }
    expect(new Set(key.trays.slice(24).map(({ order }) => order)).size).toBe(3);
  });
  test("say in the key, in serving order, which code is which product", () => {
    const [current, steamed] = plan.products.map(({ id }) => id);
    key.trays.forEach((tray, at) => {
      expect(tray.samples.map(({ code }) => code)).toEqual(blind[at]?.codes);
      const letters = tray.samples.map(({ product }) => (product === current ? "A" : product === steamed ? "B" : "?"));
      expect(letters.join("")).toBe(tray.order);
    });
  });
  test("spread the batches of a wave evenly, and both cups of one product come from one batch", () => {
    const [current = ""] = plan.products.map(({ id }) => id);
    const firstWave = blind.filter(({ wave }) => wave === 1).map(({ tray }) => tray);
    const batches = key.trays.map(({ tray, samples }) => {
      const own = new Set(samples.filter(({ product }) => product === current).map(({ batch }) => batch));
      expect(own.size).toBe(1);
      return { tray, batch: [...own][0] };
    });
    const counts = ["C1", "C2"].map(
      (name) => batches.filter(({ tray, batch }) => firstWave.includes(tray) && batch === name).length,
    );
    expect(counts.toSorted()).toEqual([6, 7]);
    expect(batches.filter(({ tray }) => !firstWave.includes(tray)).every(({ batch }) => batch === "C3")).toBe(true);
  });
  test("fit the schemas of the packet and of the key", () => {
    expect(read(blindPacket, blindPacketOf(plan, study, blind, commitment)).trays).toEqual(blind);
    expect(read(keySchema, key)).toEqual(key);
  });
  test("are the same again from the same seed and the same source of codes", () => {
    expect(made(plan)).toEqual({ blind, key, seats, pots });
  });
});

describe("non-interference: the blind half, byte for byte", () => {
  const plan = readyPlan();
  const packet = (other: Plan, seed = "5eed") =>
    JSON.stringify(blindPacketOf(other, study, made(other, seed).blind, commitment));
  const reference = packet(plan);
  const swapped = plan.products.toReversed();

  test("is the same when the products are swapped", () => {
    expect(packet({ ...plan, products: swapped })).toBe(reference);
  });
  test("is the same when the products are renamed and prepared otherwise", () => {
    const products = plan.products.map((product) => ({ ...product, name: `${product.name}!`, preparation: "Other." }));
    expect(packet({ ...plan, products })).toBe(reference);
  });
  test("is the same when the declarations come in another order", () => {
    expect(packet({ ...plan, declarations: plan.declarations.toReversed() })).toBe(reference);
  });
  test("is the same when batches, title, question and server's knowledge differ", () => {
    const waves = plan.waves.map((wave) => ({
      ...wave,
      batches: Object.fromEntries(plan.products.map(({ id }) => [id, ["X", "Y", "Z"]])),
    }));
    expect(packet({ ...plan, waves, title: "?", objective: "?", serverKnowsKey: true })).toBe(reference);
  });
  test("is the same for 200 other seeds, while the key is another", () => {
    const orders = new Set<string>();
    for (let seed = 0; seed < 200; seed++) {
      expect(packet(plan, String(seed))).toBe(reference);
      orders.add(
        made(plan, String(seed))
          .key.trays.map(({ order }) => order)
          .join(" "),
      );
    }
    expect(orders.size).toBe(200);
  });
  test("differs when the source of codes differs, or the test above could not fail", () => {
    expect(JSON.stringify(made(plan, "5eed", "another").blind)).not.toBe(JSON.stringify(made(plan).blind));
  });
});

/** 2,000 studies of 6 people, each from its own seed and its own source of codes: what a tablet sees, and the truth. */
function manyTrays() {
  const plan = readyPlan({ people: 6, spares: 0 });
  const waves = plan.waves.map((wave) => ({ ...wave, people: 3 }));
  return Array.from({ length: 2_000 }, (_, study) =>
    made({ ...plan, waves }, `seed ${study}`, `codes ${study}`),
  ).flatMap(({ blind, key }) =>
    blind.map(({ codes, tray }, at) => ({ codes, tray, odd: (oddPlace(key.trays[at]?.order ?? "") ?? -1) + 1 })),
  );
}

describe("guessing the odd sample from codes and tray numbers over 2,000 studies stays at chance", () => {
  const trays = manyTrays();
  const hits = (guess: (codes: string[], tray: number) => number, seen = trays) =>
    seen.filter(({ codes, tray, odd }) => guess(codes, tray) === odd).length;
  const place = (codes: string[], rank: number) => codes.indexOf(codes.toSorted()[rank] ?? "") + 1;
  // 12,000 trays at 1/3: mean 4,000, standard deviation 51.64; 99.9 % band by the normal law: 3.29 times that
  const band = 3.29 * Math.sqrt((12_000 * 2) / 9);

  test.each<[string, (codes: string[], tray: number) => number]>([
    ["smallest code", (codes) => place(codes, 0)],
    ["middle code", (codes) => place(codes, 1)],
    ["largest code", (codes) => place(codes, 2)],
    ["first place", () => 1],
    ["tray number modulo three", (_, tray) => (tray % 3) + 1],
    ["tray number halved", (_, tray) => (Math.floor(tray / 2) % 3) + 1],
    ["code sum modulo three", (codes) => (codes.reduce((sum, code) => sum + Number(code), 0) % 3) + 1],
  ])("by the %s", (_, guess) => {
    expect(Math.abs(hits(guess) - 4_000)).toBeLessThan(band);
  });
  test("a planted leak, the odd code being the largest on one tray in ten, is caught", () => {
    const leaking = trays.map(({ codes, tray, odd }, at) => {
      if (at % 10 !== 0) return { codes, tray, odd };
      const [low = "", middle = "", high = ""] = codes.toSorted();
      const rest = [low, middle];
      return { codes: [1, 2, 3].map((here) => (here === odd ? high : (rest.shift() ?? ""))), tray, odd };
    });
    expect(Math.abs(hits((codes) => place(codes, 2), leaking) - 4_000)).toBeGreaterThan(band);
  });
});

describe("plans that trays cannot be made of", () => {
  test("one product", () => {
    const plan = readyPlan();
    expect(problemOf(() => made({ ...plan, products: plan.products.slice(0, 1) }))).toEqual({
      code: "plan/too-few-products",
      details: { count: 1, least: 2 },
    });
  });
  test("three products", () => {
    const plan = readyPlan();
    const [first] = plan.products;
    const products = [...plan.products, ...(first ? [{ ...first, id: study, name: "rested" }] : [])];
    expect(problemOf(() => made({ ...plan, products }))).toEqual({
      code: "plan/too-many-products",
      details: { count: 3, most: 2 },
    });
  });
  test("waves that do not hold the people", () => {
    expect(problemOf(() => made(readyPlan({ people: 25 })))).toEqual({
      code: "plan/people-in-waves",
      details: { planned: 25, inWaves: 24 },
    });
  });
  test("a wave without a batch of a product", () => {
    const plan = readyPlan();
    const waves = plan.waves.map((wave) => ({ ...wave, batches: {} }));
    expect(problemOf(() => made({ ...plan, waves }))).toEqual({
      code: "plan/no-batch",
      details: { product: "current", wave: 1 },
    });
  });
  test("more trays than there are codes for a wave", () => {
    const plan = readyPlan();
    const waves = plan.waves.map((wave) => ({ ...wave, people: 250 }));
    expect(problemOf(() => made({ ...plan, people: 500, waves })).code).toBe("plan/too-many-trays");
  });
});
