// @vitest-environment happy-dom
import { cleanup, render } from "@testing-library/preact";
import { afterEach, describe, expect, test } from "vitest";
import { type IntervalFigures, IntervalRows, intervalLayout } from "../../src/ui/interval-picture.tsx";
import { numberAxis, roundRange, roundStep } from "../../src/ui/number-axis.ts";

afterEach(cleanup);

/** Scenario Q7: new less current, and rested less new. */
const rows = [
  { id: "a", label: "new − current", text: "11.9 (5.3 to 18.5)", estimate: 11.9, low: 5.3, high: 18.5 },
  { id: "b", label: "rested − new", text: "1.4 (−5.2 to 8.1)", estimate: 1.4, low: -5.2, high: 8.1 },
];
const pairs: IntervalFigures = { rows, range: null, zero: true };
const swapped = rows.map(({ id, label, text, estimate, low, high }) => ({
  ...{ id, label, text, estimate: -estimate },
  ...{ low: -high, high: -low },
}));

describe.each([660, 358])("rows of intervals, %i px wide", (width) => {
  const drawn = (figures: IntervalFigures) => render(<IntervalRows figures={figures} width={width} />).container;
  const estimates = (container: Element): number[] =>
    [...container.querySelectorAll(".estimate")].map((dot) => Number(dot.getAttribute("cx")));

  test("each estimate stands between the ends of its interval, on one axis that shows no difference", () => {
    const { axis, from, to } = intervalLayout(pairs, width);
    const container = drawn(pairs);
    expect(estimates(container).map((x) => Math.round(x))).toEqual(
      [11.9, 1.4].map((value) => Math.round(axis.at(value))),
    );
    const zero = Number(/^M([\d.]+)/.exec(container.querySelector(".zero")?.getAttribute("d") ?? "")?.[1]);
    expect(zero).toBeCloseTo(axis.at(0), 1);
    expect(zero).toBeGreaterThan(from);
    expect(zero).toBeLessThan(to);
    expect(container.querySelectorAll(".interval")).toHaveLength(2);
  });

  test("products named the other way round give the mirror image", () => {
    const [one, other] = [intervalLayout(pairs, width), intervalLayout({ ...pairs, rows: swapped }, width)];
    expect(other.axis.at(-11.9)).toBeCloseTo(width - one.axis.at(11.9), 6);
    expect(other.axis.at(5.2)).toBeCloseTo(width - one.axis.at(-5.2), 6);
  });

  test("shares run from 0 to 100 whatever they are, and an estimate without bounds has no interval", () => {
    const share = { id: "s", label: "prefer “new”", text: "52 %", estimate: 52, low: null, high: null };
    const figures = { rows: [share], range: { low: 0, high: 100 }, zero: false };
    const container = drawn(figures);
    expect(container.querySelector(".interval")).toBeNull();
    expect(container.querySelector(".zero")).toBeNull();
    const texts = intervalLayout(figures, width).axis.ticks.map(({ text }) => text);
    expect([texts[0], texts.at(-1)]).toEqual(["0", "100"]);
  });
});

test("a label and its figures that do not fit in one line stand in two", () => {
  const [one] = intervalLayout(pairs, 660).rows;
  const [other] = intervalLayout(pairs, 220).rows;
  expect(one?.text.y).toBe(one?.label.y);
  expect(other?.text.y).toBeGreaterThan(other?.label.y ?? 0);
});

describe("round numbers on an axis", () => {
  test.each([
    [0.03, 0.05],
    [0.1, 0.1],
    [1.2, 2],
    [4.6, 5],
    [7, 10],
    [130, 200],
  ])("the step for at least %f is %f (1, 2 or 5 times a power of ten)", (least, step) => {
    expect(roundStep(least)).toBeCloseTo(step, 12);
  });

  test("a range holds all values; a single value has room around it", () => {
    for (const values of [[2.5, 8], [-0.3, 0.1], [1e6, 1e6 + 3], [7]]) {
      const { low, high } = roundRange(values);
      expect(low).toBeLessThanOrEqual(Math.min(...values));
      expect(high).toBeGreaterThanOrEqual(Math.max(...values));
      expect(high).toBeGreaterThan(low);
    }
  });

  test("ticks have a true minus and no binary dust: −0.1, 0, 0.1, 0.2, 0.3", () => {
    const { ticks } = numberAxis({ low: -0.1, high: 0.3 }, { from: 0, to: 250 });
    expect(ticks.map(({ text }) => text)).toEqual(["\u22120.1", "0", "0.1", "0.2", "0.3"]);
  });
});
