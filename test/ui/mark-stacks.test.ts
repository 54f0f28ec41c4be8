import { expect, test } from "vitest";
import { markStacks, stackPath } from "../../src/ui/mark-stacks.ts";

test("500 marks in a row are drawn one by one, 501 are stacked", () => {
  const row = (marks: number) => Array.from({ length: marks }, (_, at) => at % 100);
  expect(markStacks([row(500), row(20)], (value) => value)).toBeNull();
  expect(markStacks([row(501), row(20)], (value) => value)?.lanes).toHaveLength(2);
});

test("columns of five pixels: 600 marks at one place and one far off give nine dots at most and one", () => {
  const stacks = markStacks([[...new Array<number>(600).fill(12), 93]], (value) => value);
  // 600 over the nine dots that have room is 67, and 100 the next round number
  expect(stacks).toEqual({
    each: 100,
    lanes: [
      [
        { x: 12.5, dots: 6 },
        { x: 92.5, dots: 1 },
      ],
    ],
  });
  expect(
    stackPath(stacks?.lanes[0] ?? [], 40)
      .split("M")
      .slice(1),
  ).toEqual([...[40, 35, 30, 25, 20, 15].map((y) => `12.5 ${y}h0`), "92.5 40h0"]);
});
