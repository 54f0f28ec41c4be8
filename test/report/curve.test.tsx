// @vitest-environment happy-dom
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";
import { resultText } from "../../src/cli/output.ts";
import type { Moment } from "../../src/model/attribute.ts";
import { ResultPage } from "../../src/report/result-page.tsx";
import { lineRecord, type Marks } from "../analysis/study-records.ts";
import { linePlan } from "../design/scenario.ts";
import { openedRecord } from "./opened-record.ts";

afterEach(cleanup);

/** Twelve people who mark each product at the first bite, after ten seconds, and at `last`. */
function study(last: Moment, keyMatches = true) {
  const plan = linePlan();
  const [juicy] = plan.scale.attributes;
  if (!juicy) throw new Error("the scenario has an attribute");
  const further = [
    { id: "8e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b08", moment: { at: "after" as const, seconds: 10 } },
    { id: "8e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b09", moment: last },
  ];
  const attributes = [{ ...juicy, moment: { at: "first-bite" as const }, further }];
  const people = Array.from({ length: 12 }, (_, at): Marks => {
    // the spread that people have, the same sum of zero for each product and moment
    const own = (place: number) => [3, -3, 1, -1][(at + place) % 4] ?? 0;
    return [
      [60 + own(0), 60 + own(1), 60 + own(2)],
      [40 + own(1), 50 + own(2), 50 + own(3)],
      [20 + own(2), 40 + own(3), 44 + own(0)],
    ];
  });
  return openedRecord(lineRecord({ ...plan, scale: { ...plan.scale, attributes } }, people, { keyMatches }));
}
const now = () => "2026-05-04T08:00:00.000Z";
const show = (opened: ReturnType<typeof study>) =>
  render(<ResultPage study={opened} lead={false} app="0.1.0" now={now} fetchRemarks={async () => []} />);
const page = (): string => document.body.textContent ?? "";

// means by hand: current 60, 40, 20; new 60, 50, 40; rested 60, 50, 44. Trapezoids over 0, 10, 20 s: 10 * (60/2 + 40 + 20/2)
// = 800 for current, 10 * (30 + 50 + 20) = 1000 for new, 10 * (30 + 50 + 22) = 1020 for rested
test("three timed moments: the curve with a table of its means, the change and the area of each product", () => {
  show(study({ at: "after", seconds: 20 }));
  const curve = screen.getByRole("heading", { level: 2, name: "Juiciness over the chew" }).parentElement;
  expect(curve?.textContent).toContain("differ in shape");
  const image = curve?.querySelector("svg[role=img]");
  const table = document.getElementById(image?.getAttribute("aria-details") ?? "");
  const cells = [...(table?.querySelectorAll("tbody tr") ?? [])].map((row) =>
    [...row.querySelectorAll("td")].map((cell) => cell.textContent?.split(" ")[0]),
  );
  expect(cells).toEqual([
    ["60.0", "40.0", "20.0"],
    ["60.0", "50.0", "40.0"],
    ["60.0", "50.0", "44.0"],
  ]);
  expect(page()).toContain(
    "“current” fell by 40.0 points, “new” fell by 20.0 points and “new, rested” fell by 16.0 points",
  );
  expect(page()).toContain("“current” 800 (40.0 points on average), “new” 1000 (50.0 points on average)");
  expect(page()).toContain("“new, rested” 1020 (51.0 points on average)");
});

test("a last moment without seconds: the page says that there is no area, and why", () => {
  show(study({ at: "before-swallowing" }));
  expect(page()).toContain("There is no area under the curve");
  expect(page()).not.toContain("points times seconds");
  expect(page()).toContain("just before swallowing");
});

test("with a key in doubt nothing is said of curves", () => {
  show(study({ at: "after", seconds: 20 }, false));
  expect(page()).not.toContain("over the chew");
});

test("the terminal says the same, with the table", () => {
  const text = resultText(study({ at: "after", seconds: 20 }).result);
  expect(text).toContain("Juiciness over the chew");
  expect(text).toContain("“current” 800 (40.0 points on average)");
  expect(text).toMatch(/current\s+60\.0 \(.*\)\s+40\.0 \(.*\)\s+20\.0 \(/);
});
