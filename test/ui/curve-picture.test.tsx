// @vitest-environment happy-dom
import { cleanup, render } from "@testing-library/preact";
import { afterEach, describe, expect, test } from "vitest";
import { type CurveFigures, curveLayout, shapes } from "../../src/ui/curve-layout.ts";
import { Curves } from "../../src/ui/curve-picture.tsx";

afterEach(cleanup);

const value = (estimate: number) => ({ estimate, low: estimate - 6, high: estimate + 6 });
const moments = [
  { label: "at the first bite", seconds: 0 },
  { label: "after 10 s", seconds: 10 },
  { label: "after 40 s", seconds: 40 },
];
const products = ["current", "new", "new + rest"].map((name, at) => ({
  name,
  values: [value(50 + at), value(40 + at), value(30 + at)],
}));
const figures: CurveFigures = { moments, products, range: { low: 0, high: 100 } };

describe.each([660, 343])("curves over the chew, %i px wide", (width) => {
  const layout = curveLayout(figures, width);

  test("everything stands within the picture, words below each moment included", () => {
    for (const { x, lines } of layout.moments) {
      for (const { text, y } of lines) {
        expect(text).not.toContain("\u2026");
        // half of the text at 14 px, as wide as it may be
        expect(x + (text.length * 14 * 0.56) / 2).toBeLessThanOrEqual(layout.width);
        expect(y).toBeLessThan(layout.height);
      }
    }
    for (const { points } of layout.curves) {
      for (const { x, y, low, high } of points) {
        expect(x).toBeGreaterThan(layout.plot.left);
        expect(x).toBeLessThan(layout.plot.right);
        // up is more
        expect(low).toBeGreaterThan(y);
        expect(high).toBeLessThan(y);
      }
    }
  });

  test("planned seconds set the moments apart to scale; without them they stand evenly", () => {
    const [a = 0, b = 0, c = 0] = layout.moments.map(({ x }) => x);
    expect((c - b) / (b - a)).toBeCloseTo(3, 6);
    const [, , last] = moments;
    const untimed = { ...figures, moments: [...moments.slice(0, 2), { label: last?.label ?? "", seconds: null }] };
    const [d = 0, e = 0, f = 0] = curveLayout(untimed, width).moments.map(({ x }) => x);
    expect(f - e).toBeCloseTo(e - d, 6);
  });

  test("products stand apart at every moment, each with a pattern and a shape of its own", () => {
    for (const at of [0, 1, 2]) {
      const places = layout.curves.map(({ points }) => points[at]?.x);
      expect(new Set(places).size).toBe(3);
    }
    expect(new Set(layout.curves.map(({ dash }) => dash)).size).toBe(3);
    expect(new Set(layout.curves.map(({ shape }) => shape)).size).toBe(3);
  });
});

test("twelve products look different in black and white, by pattern and shape together", () => {
  const many = Array.from({ length: 12 }, (_, at) => ({ name: `product ${at + 1}`, values: [value(50)] }));
  const { curves } = curveLayout({ ...figures, products: many }, 660);
  expect(new Set(curves.map(({ dash, shape }) => `${dash} ${shape}`)).size).toBe(many.length);
  expect(many.length).toBeGreaterThan(shapes.length);
});

test("a moment that nobody marked breaks the line, and a mean without spread has no interval", () => {
  const holed = [{ name: "current", values: [value(50), null, { estimate: 30, low: null, high: null }] }];
  const { container } = render(<Curves figures={{ ...figures, products: holed }} width={660} />);
  const [curve] = curveLayout({ ...figures, products: holed }, 660).curves;
  expect(curve?.path.match(/M/g)).toHaveLength(2);
  expect(curve?.path).not.toContain("L");
  expect(container.querySelectorAll(".curve circle")).toHaveLength(2);
  expect(container.querySelector(".interval")?.getAttribute("d")?.match(/V/g)).toHaveLength(1);
});
