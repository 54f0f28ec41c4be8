// @vitest-environment happy-dom
import { cleanup, render } from "@testing-library/preact";
import { afterEach, describe, expect, test } from "vitest";
import { dotLayout } from "../../src/ui/dot-layout.ts";
import { ChanceDots, ChanceTable } from "../../src/ui/dot-picture.tsx";

afterEach(cleanup);

/** Index = number right. */
const panelsFrom = (first: number, panels: number[], judgments: number): number[] =>
  Array.from({ length: judgments + 1 }, (_, right) => panels[right - first] ?? 0);

/**
 * 24 answers at 1/3: heights 2 4 8 12 16 17 16 11 7 4 2 1 at 3 to 14, qbinom((0:99 + 0.5) / 100, 24, 1/3) in R 4.2.2;
 * 13 needed at alpha 0.05 (P(X >= 13) = 0.0284, same program).
 */
const twentyFour = {
  judgments: 24,
  correct: 14,
  criticalNumber: 13,
  guessingPanels: panelsFrom(3, [2, 4, 8, 12, 16, 17, 16, 11, 7, 4, 2, 1], 24),
};
const words = { observed: "this panel: 14", needed: "needed: 13", axis: "number right" };
const heads = { right: "number right", panels: "of 100", mark: "mark" };

const drawn = (width: number, result = twentyFour) =>
  render(<ChanceDots result={result} width={width} words={words} caption="caption" table="table" />).container;
const numberOf = (element: Element, attribute: string): number => Number(element.getAttribute(attribute));
/** How many dots stand at each x, from left to right. */
const stacks = (container: Element): number[] => {
  const at = new Map<number, number>();
  for (const dot of container.querySelectorAll("circle"))
    at.set(numberOf(dot, "cx"), (at.get(numberOf(dot, "cx")) ?? 0) + 1);
  return [...at].sort(([a], [b]) => a - b).map(([, dots]) => dots);
};

describe.each([660, 480, 358, 288])("the picture of chance, %i px wide", (width) => {
  test("has as many dots on each count as there are guessing panels (R qbinom)", () => {
    expect(stacks(drawn(width))).toEqual([2, 4, 8, 12, 16, 17, 16, 11, 7, 4, 2, 1]);
  });

  test("draws the rule with 97 dots before it and 3 behind, and the triangle under the last dot", () => {
    const container = drawn(width);
    const rule = Number(/^M([\d.]+)/.exec(container.querySelector(".needed path")?.getAttribute("d") ?? "")?.[1]);
    const dots = [...container.querySelectorAll("circle")].map((dot) => numberOf(dot, "cx"));
    expect(dots.filter((x) => x < rule)).toHaveLength(97);
    expect(dots.filter((x) => x > rule)).toHaveLength(3);
    const seen = Number(/^M([\d.]+)/.exec(container.querySelector(".seen path")?.getAttribute("d") ?? "")?.[1]);
    expect(seen).toBeCloseTo(Math.max(...dots), 1);
  });

  test("is drawn at its width, unscaled, with no text under 14 px", () => {
    const svg = drawn(width).querySelector("svg");
    expect(svg?.getAttribute("viewBox")).toBe(`0 0 ${width} ${svg?.getAttribute("height")}`);
    expect(svg?.getAttribute("width")).toBe(String(width));
    const sizes = [...(svg?.querySelectorAll("[font-size]") ?? [])].map((text) => numberOf(text, "font-size"));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(14);
    const bare = [...(svg?.querySelectorAll("text") ?? [])].filter((text) => !text.closest("[font-size]"));
    expect(bare).toEqual([]);
  });

  test("keeps dots inside the picture, apart from each other and above the axis", () => {
    const { dots, radius, axis, height, columns } = dotLayout(twentyFour, width);
    for (const { x, y } of dots) {
      expect(x - radius).toBeGreaterThanOrEqual(0);
      expect(x + radius).toBeLessThanOrEqual(width);
      expect(y - radius).toBeGreaterThanOrEqual(0);
      expect(y + radius).toBeLessThan(axis.y);
    }
    expect(axis.y).toBeLessThan(height);
    const [first, second] = columns;
    expect((second?.x ?? 0) - (first?.x ?? 0)).toBeGreaterThan(2 * radius);
  });
});

test("the table says the same as the picture, count by count, with both marks", () => {
  const { container } = render(<ChanceTable result={twentyFour} words={words} heads={heads} />);
  const rows = [...container.querySelectorAll("tbody tr")].map((row) =>
    [...row.children].map((cell) => cell.textContent ?? ""),
  );
  expect(rows.map(([right]) => Number(right))).toEqual([3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14]);
  expect(rows.map(([, panels]) => Number(panels))).toEqual(stacks(drawn(660)));
  expect(rows.filter(([, , mark]) => mark !== "")).toEqual([
    ["13", "2", "needed: 13"],
    ["14", "1", "this panel: 14"],
  ]);
});

test("a count that no dot reaches still has its row and its triangle", () => {
  const result = { ...twentyFour, correct: 24 };
  const { container } = render(
    <ChanceTable result={result} words={{ ...words, observed: "this panel: 24" }} heads={heads} />,
  );
  expect(container.querySelector("tbody tr:last-child")?.textContent).toBe("240this panel: 24");
  for (const width of [660, 358]) expect(dotLayout(result, width).seen.x).toBeLessThanOrEqual(width);
});

test("it is an image named by its caption and detailed by its table; without ids it is hidden from readers", () => {
  const svg = drawn(660).querySelector("svg");
  expect(svg?.getAttribute("role")).toBe("img");
  expect(svg?.getAttribute("aria-labelledby")).toBe("caption");
  expect(svg?.getAttribute("aria-details")).toBe("table");
  const plain = render(<ChanceDots result={twentyFour} width={480} words={words} />).container.querySelector("svg");
  expect(plain?.getAttribute("aria-hidden")).toBe("true");
});

test("without a critical number there is no rule", () => {
  const result = { judgments: 2, correct: 2, criticalNumber: null, guessingPanels: [44, 45, 11] };
  const { container } = render(<ChanceDots result={result} width={358} words={{ ...words, needed: null }} />);
  expect(container.querySelector(".needed")).toBeNull();
  expect(stacks(container)).toEqual([44, 45, 11]);
});

/** Any spread over many counts will do here: where dots go, not how many, is in question. */
test.each([
  { judgments: 1000, needed: 358, correct: 402 },
  { judgments: 5000, needed: 1722, correct: 4990 },
])("$judgments answers: columns are joined, none holds counts on both sides of the needed one", (figures) => {
  const { judgments, needed, correct } = figures;
  const middle = Math.round(judgments / 3);
  const panels = panelsFrom(middle - 50, Array<number>(100).fill(1), judgments);
  const layout = dotLayout({ judgments, correct, criticalNumber: needed, guessingPanels: panels }, 358);
  expect(layout.dots).toHaveLength(100);
  expect(layout.columns.filter(({ first, last }) => first < needed && last >= needed)).toEqual([]);
  expect(layout.columns.reduce((sum, column) => sum + column.panels, 0)).toBe(100);
  expect(layout.axis.to).toBeLessThanOrEqual(358);
  const near = layout.ticks.map(({ x }) => x);
  for (const [at, x] of near.slice(1).entries()) expect(x - (near[at] ?? 0)).toBeGreaterThan(4 * 7);
});
