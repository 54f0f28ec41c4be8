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
  seen: 14,
  atLeast: 13,
  atMost: null,
  guessingPanels: panelsFrom(3, [2, 4, 8, 12, 16, 17, 16, 11, 7, 4, 2, 1], 24),
};
const words = { observed: "this panel: 14", needed: "needed: 13", axis: "number right" };
const heads = { right: "number right", panels: "of 100", mark: "mark" };

const drawn = (width: number, result = twentyFour) =>
  render(<ChanceDots figures={result} width={width} words={words} caption="caption" table="table" />).container;
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
  const { container } = render(<ChanceTable figures={twentyFour} words={words} heads={heads} />);
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
  const result = { ...twentyFour, seen: 24 };
  const { container } = render(
    <ChanceTable figures={result} words={{ ...words, observed: "this panel: 24" }} heads={heads} />,
  );
  expect(container.querySelector("tbody tr:last-child")?.textContent).toBe("240this panel: 24");
  for (const width of [660, 358]) expect(dotLayout(result, width).seen.x).toBeLessThanOrEqual(width);
});

test("it is an image named by its caption and detailed by its table; without ids it is hidden from readers", () => {
  const svg = drawn(660).querySelector("svg");
  expect(svg?.getAttribute("role")).toBe("img");
  expect(svg?.getAttribute("aria-labelledby")).toBe("caption");
  expect(svg?.getAttribute("aria-details")).toBe("table");
  const plain = render(<ChanceDots figures={twentyFour} width={480} words={words} />).container.querySelector("svg");
  expect(plain?.getAttribute("aria-hidden")).toBe("true");
});

test("without a critical number there is no rule", () => {
  const result = { judgments: 2, seen: 2, atLeast: null, atMost: null, guessingPanels: [44, 45, 11] };
  const { container } = render(<ChanceDots figures={result} width={358} words={{ ...words, needed: null }} />);
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
  const layout = dotLayout({ judgments, seen: correct, atLeast: needed, atMost: null, guessingPanels: panels }, 358);
  expect(layout.dots).toHaveLength(100);
  expect(layout.columns.filter(({ first, last }) => first < needed && last >= needed)).toEqual([]);
  expect(layout.columns.reduce((sum, column) => sum + column.panels, 0)).toBe(100);
  expect(layout.axis.to).toBeLessThanOrEqual(358);
  const near = layout.ticks.map(({ x }) => x);
  for (const [at, x] of near.slice(1).entries()) expect(x - (near[at] ?? 0)).toBeGreaterThan(4 * 7);
});

/** Two-sided, 24 votes: 18 or more for either at alpha 0.05 (R binom.test: 18 of 24 gives 0.0227, 17 gives 0.0639). */
describe.each([660, 480, 358])("a rule with two ends, %i px wide", (width) => {
  // heights of some spread around 12: where rules and flags go is in question, not how many dots there are
  const figures = {
    ...{ judgments: 24, seen: 17, atLeast: 18, atMost: 6 },
    guessingPanels: panelsFrom(6, [1, 2, 4, 8, 12, 15, 16, 15, 12, 8, 4, 2, 1], 24),
  };
  const layout = dotLayout(figures, width);
  const xOf = (count: number): number =>
    layout.columns.find(({ first, last }) => first <= count && count <= last)?.x ?? 0;

  test("one line stands between 6 and 7, one between 17 and 18", () => {
    expect(layout.atMost?.x).toBeCloseTo((xOf(6) + xOf(7)) / 2, 6);
    expect(layout.atLeast?.x).toBeCloseTo((xOf(17) + xOf(18)) / 2, 6);
  });

  test("both have a flag, one above the other, and a row in the table", () => {
    const flags = { ...words, needed: "18 or more: “current”", neededBelow: "6 or fewer: “new”" };
    const { container } = render(<ChanceDots figures={figures} width={width} words={flags} />);
    const texts = [...container.querySelectorAll(".needed text")];
    expect(texts.map((text) => text.textContent)).toEqual([flags.needed, flags.neededBelow]);
    expect(numberOf(texts[0] as Element, "y") - numberOf(texts[1] as Element, "y")).toBeGreaterThanOrEqual(15);
    cleanup();
    const table = render(<ChanceTable figures={figures} words={flags} heads={heads} />).container;
    const marks = [...table.querySelectorAll("tbody tr")].map((row) => row.textContent ?? "");
    expect(marks.filter((row) => row.includes("or"))).toEqual([`61${flags.neededBelow}`, `181${flags.needed}`]);
  });
});

test("two ends among thousands of votes: no joined column holds counts on both sides of either", () => {
  const panels = panelsFrom(2450, Array<number>(100).fill(1), 5000);
  // 5000 votes at alpha 0.05: half plus about 1.96 standard deviations of 35.36; here only the borders matter
  const figures = { judgments: 5000, seen: 2610, atLeast: 2570, atMost: 2430, guessingPanels: panels };
  for (const width of [358, 660]) {
    const { columns, atLeast, atMost } = dotLayout(figures, width);
    expect(columns.filter(({ first, last }) => first < 2570 && last >= 2570)).toEqual([]);
    expect(columns.filter(({ first, last }) => first <= 2430 && last > 2430)).toEqual([]);
    expect(atMost?.x).toBeLessThan(atLeast?.x ?? 0);
    expect(columns.reduce((sum, column) => sum + column.panels, 0)).toBe(100);
  }
});
