// @vitest-environment happy-dom
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";
import type { Departure } from "../../src/model/record.ts";
import { WithoutTrays } from "../../src/report/without-part.tsx";
import { withoutTrays } from "../../src/report/without-trays.ts";
import { recordOf } from "../analysis/scenario.ts";

afterEach(cleanup);

const outside = (trays: number[]): { departures: Departure[] } => ({
  departures: [{ what: "served-outside-window", wave: 1, side: "past", trays, from: 4, to: 15 }],
});

// least numbers of right answers at 5 %: 13 of 24 and 12 of 21 (FAO document V7180E, Appendix A; test/reference/triangle-critical-published)
test("14 of 24 shows a difference; without three right ones that were served too late 11 of 21 do not", () => {
  const without = withoutTrays(recordOf(14, 24, outside([3, 1, 2])), "1");
  expect(without?.trays).toEqual([1, 2, 3]);
  expect(without?.result).toMatchObject({ judgments: 21, correct: 11, criticalNumber: 12, outcome: "not-reached" });
  render(<WithoutTrays without={without} />);
  expect(screen.getByText(/^Without trays 1, 2 and 3 it would read: /)).toBeTruthy();
});

test("the result itself keeps every tray, and there is nothing to say where none was outside", () => {
  expect(withoutTrays(recordOf(14), "1")).toBeNull();
  // a tray without a counted answer
  expect(withoutTrays(recordOf(14, 20, outside([24])), "1")).toBeNull();
  const { container } = render(<WithoutTrays without={null} />);
  expect(container.textContent).toBe("");
});

test("nothing is left, or a rule for stopping says which answers count: not asked", () => {
  const all = Array.from({ length: 24 }, (_, at) => at + 1);
  expect(withoutTrays(recordOf(14, 24, outside(all)), "1")).toBeNull();
  expect(withoutTrays(recordOf(14, 24, outside([1]), { stopping: { rule: "looks", at: [12] } }), "1")).toBeNull();
});
