import fc from "fast-check";
import { expect, test } from "vitest";
import { criticalNumber, upperTail } from "../../src/analysis/binomial.ts";

// The rule itself, told by exact tails (which binomial.test.ts holds against 50 digits): the number is the least whose
// tail is alpha or less. However it is searched for, it must be that one.
function expectRule(n: number, p: number, alpha: number): void {
  const found = criticalNumber(n, p, alpha);
  if (found !== null) expect(upperTail(found, n, p)).toBeLessThanOrEqual(alpha);
  const below = (found ?? n + 1) - 1;
  if (below >= 0) expect(upperTail(below, n, p)).toBeGreaterThan(alpha);
}

const between = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });

test("any size, share and risk: its tail is alpha or less, and that of one fewer is not", () => {
  const risk = fc.oneof(
    between,
    fc.double({ min: -300, max: -0.01, noNaN: true }).map((digits) => 10 ** digits),
  );
  fc.assert(fc.property(fc.integer({ min: 0, max: 3000 }), between, risk, expectRule), { numRuns: 400 });
});

test("a risk that is exactly a tail, or a hair beside one", () => {
  const hair = fc.constantFrom(1, 1 + 3e-16, 1 - 3e-16, 1 + 1e-12, 1 - 1e-12);
  const share = fc.oneof(fc.constantFrom(1 / 2, 1 / 3, 1e-9, 1e-3), between);
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 200 }), fc.nat(), share, hair, (n, any, p, beside) => {
      const alpha = upperTail(any % (n + 1), n, p) * beside;
      fc.pre(alpha > 0 && alpha < 1);
      expectRule(n, p, alpha);
    }),
    { numRuns: 600 },
  );
});

test("every small panel at the risks of the printed tables, by the rule", () => {
  for (let n = 0; n <= 120; n++) {
    for (const p of [1 / 2, 1 / 3])
      for (const alpha of [0.4, 0.2, 0.1, 0.05, 0.025, 0.01, 0.001]) expectRule(n, p, alpha);
  }
});
