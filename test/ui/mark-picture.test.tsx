// @vitest-environment happy-dom
import { cleanup, render } from "@testing-library/preact";
import { afterEach, describe, expect, test } from "vitest";
import { type MarkFigures, markLayout } from "../../src/ui/mark-layout.ts";
import { Marks } from "../../src/ui/mark-picture.tsx";
import { juicinessMarks } from "../analysis/study-records.ts";

afterEach(cleanup);

/** The invented juiciness marks; means by hand from their sums 556.2, 699.0 and 716.2 over 12. */
const names = ["current", "new", "new, rested"];
const means = [46.35, 58.25, 59.683_333_333_333_33];
const figuresOf = (products: number): MarkFigures => ({
  products: names.slice(0, products).map((name, at) => ({ name, mean: means[at] ?? 0, text: `mean ${means[at]}` })),
  panelists: juicinessMarks.map((values, at) => ({ panelist: `seat ${at + 1}`, values: values.slice(0, products) })),
  range: { low: 0, high: 100 },
  ends: { low: "not at all juicy", high: "extremely juicy" },
  difference: null,
});
/** Scenario Q7: new less current 11.9 (5.3 to 18.5). */
const two: MarkFigures = {
  ...figuresOf(2),
  difference: { from: 0, label: "new − current", text: "11.9 (5.3 to 18.5)", estimate: 11.9, low: 5.3, high: 18.5 },
};
const numberOf = (element: Element | null | undefined, attribute: string): number =>
  Number(element?.getAttribute(attribute));

describe.each([660, 480, 358])("every panelist's marks, %i px wide", (width) => {
  test("a dot for each of 36 marks at its place on the line, and a line for each of 12 panelists", () => {
    const layout = markLayout(figuresOf(3), width);
    const { from, to } = layout.axis;
    const placed = layout.dots.map(({ x }) => ((x - from) / (to - from)) * 100).sort((a, b) => a - b);
    const marks = juicinessMarks.flat().sort((a, b) => a - b);
    expect(placed).toHaveLength(36);
    for (const [at, place] of placed.entries()) expect(place).toBeCloseTo(marks[at] ?? -1, 6);
    const { container } = render(<Marks figures={figuresOf(3)} width={width} />);
    expect(container.querySelectorAll(".panelists path")).toHaveLength(12);
    expect(container.querySelectorAll(".means path")).toHaveLength(3);
  });

  test("the axis runs over the whole scale, with an end word under each end", () => {
    const layout = markLayout(figuresOf(3), width);
    expect(layout.axis.ticks[0]?.text).toBe("0");
    expect(layout.axis.ticks.at(-1)?.text).toBe("100");
    expect(layout.ends?.low[0]?.text).toBe("not at all juicy");
    expect(layout.ends?.high[0]?.text).toBe("extremely juicy");
  });

  test("the difference stands on the same scale: its zero under one mean, its dot under the other", () => {
    const layout = markLayout(two, width);
    const [current, next] = layout.lanes;
    expect(layout.difference?.at(0)).toBeCloseTo(current?.meanX ?? 0, 6);
    const { container } = render(<Marks figures={two} width={width} />);
    const dot = container.querySelector(".difference .estimate");
    expect(numberOf(dot, "cx")).toBeCloseTo(next?.meanX ?? 0, 1);
    const interval = container.querySelector(".difference .interval")?.getAttribute("d") ?? "";
    const [low, high] = [...interval.matchAll(/M([\d.]+) [\d.]+v10/g)].map(([, x]) => Number(x));
    const perPoint = (layout.axis.to - layout.axis.from) / 100;
    expect(((low ?? 0) - (current?.meanX ?? 0)) / perPoint).toBeCloseTo(5.3, 1);
    expect(((high ?? 0) - (current?.meanX ?? 0)) / perPoint).toBeCloseTo(18.5, 1);
  });

  test("is drawn at its width with no text under 14 px, and nothing stands outside", () => {
    const { container } = render(<Marks figures={two} width={width} />);
    const svg = container.querySelector("svg");
    expect(svg?.getAttribute("viewBox")).toBe(`0 0 ${width} ${svg?.getAttribute("height")}`);
    const sizes = [...(svg?.querySelectorAll("[font-size]") ?? [])].map((text) => numberOf(text, "font-size"));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(14);
    expect([...(svg?.querySelectorAll("text") ?? [])].filter((text) => !text.closest("[font-size]"))).toEqual([]);
    for (const circle of svg?.querySelectorAll("circle") ?? []) {
      expect(numberOf(circle, "cx")).toBeGreaterThan(0);
      expect(numberOf(circle, "cx")).toBeLessThan(width);
      expect(numberOf(circle, "cy")).toBeLessThan(numberOf(svg, "height"));
    }
  });
});

test("a missing mark has no dot, and no line is drawn past it", () => {
  const [first, ...others] = figuresOf(3).panelists;
  const figures = { ...figuresOf(3), panelists: [{ panelist: "seat 1", values: [58.4, null, 67.1] }, ...others] };
  const layout = markLayout(figures, 660);
  expect(first?.values).toEqual([58.4, 64.0, 67.1]);
  expect(layout.dots).toHaveLength(35);
  const path = layout.paths.find(({ panelist }) => panelist === "seat 1")?.path ?? "";
  expect(path.match(/M/g)).toHaveLength(2);
  expect(path).not.toContain("L");
});

test("an interval that reaches beyond the end of the scale is drawn whole; the scale still ends where it ends", () => {
  const products = [
    { name: "current", mean: 90, text: "" },
    { name: "new", mean: 96, text: "" },
  ];
  const difference = { from: 0, label: "", text: "", estimate: 6, low: -8, high: 20 };
  const layout = markLayout({ ...two, products, difference }, 480);
  expect(layout.axis.ticks.map(({ value }) => value).every((value) => value >= 0 && value <= 100)).toBe(true);
  const end = layout.difference?.at(20) ?? 0;
  expect(end).toBeGreaterThan(layout.axis.to);
  expect(end).toBeLessThanOrEqual(480);
});

test("one ink and grays, and the accent for the observed difference alone: gray paper shows the same", () => {
  const { container } = render(<Marks figures={two} width={660} />);
  const colored = [...container.querySelectorAll("[fill], [stroke]")].filter((node) =>
    [node.getAttribute("fill"), node.getAttribute("stroke")].includes("#5b2a86"),
  );
  expect(colored.map((node) => node.getAttribute("class"))).toEqual(["estimate"]);
});

test("it is an image named by its caption and detailed by its table; without ids it is hidden from readers", () => {
  const named = render(<Marks figures={two} width={660} caption="c" table="t" />).container.querySelector("svg");
  expect([
    named?.getAttribute("role"),
    named?.getAttribute("aria-labelledby"),
    named?.getAttribute("aria-details"),
  ]).toEqual(["img", "c", "t"]);
  cleanup();
  const plain = render(<Marks figures={two} width={660} />).container.querySelector("svg");
  expect(plain?.getAttribute("aria-hidden")).toBe("true");
});
