import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Plan } from "../../src/model/plan.ts";
import { chewPlan, choicePlans, linePlan, rankingPlan, readyPlan, repeated, stepsPlan } from "../design/scenario.ts";
import { bytesOnTablets, type Packer, packer, type World } from "./blind-world.ts";

const plan = readyPlan();
const plain: World = { plan, seed: "00", salt: 1 };

/**
 * The same plan with the products the other way round, and so with the batches and declarations that go along; the other
 * product is the reference, and the one that is expected to have more.
 */
function swapped(from: Plan): Plan {
  const ids = from.products.map(({ id }) => id);
  const other = (id: string | null) => (id === null ? null : (ids.toReversed()[ids.indexOf(id)] ?? null));
  return {
    ...from,
    products: from.products.toReversed(),
    reference: { ...from.reference, product: other(from.reference.product) },
    chew: { ...from.chew, control: other(from.chew.control) },
    ranking: { ...from.ranking, predicted: from.ranking.predicted.toReversed() },
    properties: from.properties.map((property) => ({ ...property, expected: other(property.expected) })),
  };
}

/** The products the other way round, each still in its part. */
const reversed = (from: Plan): Plan => ({ ...from, products: from.products.toReversed() });

const severalTrays = (["one-sitting", "sessions"] as const).flatMap((where) =>
  choicePlans()
    .filter(([name]) => /duo-trio, c|one-sided|same-different|A-not-A/.test(name))
    .map(([name, from]): [string, Plan] => [`${name}, two trays a person, ${where}`, repeated(from, where)]),
);

const renamed = (from: Plan, names: string[]): Plan => ({
  ...from,
  title: `${names[0]} against ${names[1]}`,
  products: from.products.map((product, at) => ({ ...product, name: names[at] ?? "", preparation: names[at] ?? "" })),
});

/** The line scale with its property at three moments of one chew. */
function overTheChew(): Plan {
  const from = linePlan();
  const further = ["0", "1"].map((digit, at) => ({
    id: `7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6bf${digit}`,
    moment: at === 0 ? { at: "first-bite" as const } : { at: "before-swallowing" as const },
  }));
  return {
    ...from,
    scale: { ...from.scale, attributes: from.scale.attributes.map((attribute) => ({ ...attribute, further })) },
  };
}

describe("G1: non-interference", () => {
  const severalProducts: [string, Plan][] = [
    ["line scale over the chew", overTheChew()],
    ["steps, liking and just right", stepsPlan()],
    ["ranking", rankingPlan()],
    ["chewed portions", chewPlan()],
  ];
  test.each([...choicePlans(), ...severalTrays, ...severalProducts])(
    "%s: products swapped, renamed, the key and its salt drawn anew: every byte on the tablets is the same",
    async (_method, plan) => {
      const expected = await bytesOnTablets({ ...plain, plan });
      expect(expected).toContain('"trays":[');
      await fc.assert(
        fc.asyncProperty(
          fc.constantFrom(swapped, reversed, (from: Plan) => from),
          fc.array(fc.string({ minLength: 1, maxLength: 60 }), { minLength: 3, maxLength: 3 }),
          fc.integer({ min: 0, max: 2 ** 31 }),
          fc.integer({ min: 0, max: 255 }),
          async (swap, names, seed, salt) => {
            const world = { plan: renamed(swap(plan), names), seed: seed.toString(16), salt };
            expect(await bytesOnTablets(world)).toBe(expected);
          },
        ),
        { numRuns: 4 },
      );
    },
  );

  const productOf = (trays: Parameters<Packer>[1], code: string) =>
    trays.key.trays.flatMap((tray) => tray.samples).find((sample) => sample.code === code)?.product ?? "";
  const leaks: [string, Packer, Plan?][] = [
    [
      "the trays are listed by their order label",
      (p, trays, c) => {
        const label = new Map(trays.key.trays.map(({ tray, order }) => [tray, order]));
        const sorted = [...trays.blind].sort((x, y) =>
          (label.get(x.tray) ?? "").localeCompare(label.get(y.tray) ?? ""),
        );
        return packer(p, { ...trays, blind: sorted }, c);
      },
    ],
    [
      "the codes of a tray are listed by product",
      (p, trays, c) => {
        const blind = trays.blind.map((tray) => ({
          ...tray,
          codes: [...tray.codes].sort((x, y) => productOf(trays, x).localeCompare(productOf(trays, y))),
        }));
        return packer(p, { ...trays, blind }, c);
      },
    ],
    [
      "the version of the allergen list comes from the first product",
      (p, trays, c) => {
        const packet = packer(p, trays, c);
        return {
          ...packet,
          allergens: { ...packet.allergens, version: (p.products[0]?.id ?? "").replace(/-/g, "").padEnd(64, "0") },
        };
      },
    ],
    [
      "the pause is a second longer where the first tray holds two of the first product",
      (p, trays, c) => {
        const packet = packer(p, trays, c);
        const two = trays.key.trays[0]?.order.match(/A/g)?.length === 2;
        return { ...packet, pauseSeconds: packet.pauseSeconds + (two ? 1 : 0) };
      },
    ],
    [
      "a scale's properties are asked in an order that the order of products decides",
      (p, trays, c) => {
        const packet = packer(p, trays, c);
        const { line } = packet;
        const turned = (p.products[0]?.id ?? "") < (p.products.at(-1)?.id ?? "");
        return line && turned ? { ...packet, line: { ...line, attributes: line.attributes.toReversed() } } : packet;
      },
      stepsPlan(),
    ],
    [
      "the codes of a ranking are listed in the order that was expected",
      (p, trays, c) => {
        const expected = (code: string) => p.ranking.predicted.indexOf(productOf(trays, code));
        const blind = trays.blind.map((tray) => ({
          ...tray,
          codes: tray.codes.toSorted((x, y) => expected(x) - expected(y)),
        }));
        return packer(p, { ...trays, blind }, c);
      },
      rankingPlan(),
    ],
    [
      "the control of chewed portions is chewed for a second less on the first tray",
      (p, trays, c) => {
        const packet = packer(p, trays, c);
        const first = productOf(trays, trays.blind[0]?.codes[0] ?? "") === p.chew.control;
        return packet.chew && first
          ? { ...packet, chew: { ...packet.chew, seconds: packet.chew.seconds - 1 } }
          : packet;
      },
      chewPlan(),
    ],
  ];
  test.each(leaks)("a planted leak is found: %s", async (_name, leaky, of = plan) => {
    const other: World = { plan: swapped(of), seed: "77", salt: 1 };
    expect(await bytesOnTablets(other, leaky)).not.toBe(await bytesOnTablets({ ...plain, plan: of }, leaky));
  });

  test("a planted field that the packet does not have never leaves the server", async () => {
    const leaky: Packer = (p, trays, c) => ({ ...packer(p, trays, c), hint: trays.key.trays[0]?.order }) as never;
    await expect(bytesOnTablets(plain, leaky)).rejects.toThrow(/packet/);
  });
});
