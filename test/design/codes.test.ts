import { describe, expect, test, vi } from "vitest";
import { drawCodes, fitTogether, reservedCodes, usableCodes } from "../../src/design/codes.ts";
import { seeded } from "../../src/design/random.ts";
import { problemOf } from "../problem-of.ts";

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const source = (seed: string) => seeded(seed, "test of codes");
/** Upper 0.1 % point of chi-square for many degrees of freedom (Wilson and Hilferty's cube, any handbook). */
const chiSquareBand = (df: number) => df * (1 - 2 / (9 * df) + 3.0902 * Math.sqrt(2 / (9 * df))) ** 3;

describe("usable codes", () => {
  test("633 codes have three different digits and no run (counted: 9 * 9 * 8 - 7 up - 8 down), less the reserved", () => {
    expect(usableCodes([])).toHaveLength(9 * 9 * 8 - 7 - 8 - reservedCodes.length);
  });
  test.each(["123", "654", "210", "477", "112", "099", "911", ...reservedCodes])("%s is never used", (code) => {
    expect(usableCodes([])).not.toContain(code);
  });
  test("a code the kitchen avoids is not used", () => {
    expect(usableCodes([])).toContain("482");
    expect(usableCodes(["482"])).not.toContain("482");
  });
});

describe("codes of one tray", () => {
  test.each([
    [["482", "715", "309"], true],
    [["482", "415", "309"], false], // shared first digit
    [["482", "248", "309"], false], // reordered
    [["482", "782", "309"], false], // one digit apart
    [["482", "482", "309"], false], // twice
  ])("%j fit together: %s", (codes, fits) => {
    expect(fitTogether(codes)).toBe(fits);
  });
});

describe("codes of a study", () => {
  test("fit together on every tray and stand on no two trays", () => {
    for (let seed = 0; seed < 20; seed++) {
      const waves = drawCodes([20, 20, 20], 3, [], source(String(seed)));
      expect(waves.map((trays) => trays.length)).toEqual([20, 20, 20]);
      const trays = waves.flat();
      expect(trays.every((codes) => codes.length === 3 && fitTogether(codes))).toBe(true);
      expect(new Set(trays.flat()).size).toBe(180);
    }
  });
  test("when a study needs more than there are, no code stands twice within a wave", () => {
    const waves = drawCodes([100, 100, 100], 3, [], source("many"));
    for (const trays of waves) expect(new Set(trays.flat()).size).toBe(300);
    expect(new Set(waves.flat(2)).size).toBeLessThan(900);
  });
  test("a wave that needs more codes than there are is refused with both numbers", () => {
    expect(problemOf(() => drawCodes([300], 3, [], source("too many")))).toEqual({
      code: "plan/too-many-trays",
      details: { trays: 300, codes: usableCodes([]).length },
    });
  });
  test("codes that cannot stand together end in a refusal, not in a search without end", () => {
    const onlyFours = usableCodes([]).filter((code) => !code.startsWith("4"));
    expect(problemOf(() => drawCodes([1], 3, onlyFours, source("fours"))).code).toBe("plan/too-many-trays");
  });
  test("a wave without trays has no codes", () => {
    expect(drawCodes([0, 1], 3, [], source("0")).map((trays) => trays.length)).toEqual([0, 1]);
  });
});

describe("10,000 trays drawn one by one from a fixed seed", () => {
  const random = source("10,000 trays");
  const trays = Array.from({ length: 10_000 }, () => drawCodes([1], 3, [], random)[0]?.[0] ?? []);
  const codes = usableCodes([]);
  const at = new Map(codes.map((code, place) => [code, place]));

  test("each code comes about equally often at each place: chi-square inside the 0.1 % band", () => {
    for (const place of [0, 1, 2]) {
      const counts = codes.map(() => 0);
      for (const tray of trays) {
        const index = at.get(tray[place] ?? "") ?? -1;
        counts[index] = (counts[index] ?? 0) + 1;
      }
      const expected = trays.length / codes.length;
      const chiSquare = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
      expect(chiSquare).toBeLessThan(chiSquareBand(codes.length - 1));
    }
  });
  test("the largest code stands first, second and third equally often: chi-square under 13.82 (2 df, 0.1 %)", () => {
    const counts = [0, 1, 2].map((place) => trays.filter((tray) => tray[place] === tray.toSorted().at(-1)).length);
    const chiSquare = counts.reduce((sum, count) => sum + (count - 10_000 / 3) ** 2 / (10_000 / 3), 0);
    expect(chiSquare).toBeLessThan(13.82);
  });
});
