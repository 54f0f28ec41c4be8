// @vitest-environment happy-dom
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { resultOfRankRows } from "../../src/analysis/analyse-rank.ts";
import { readRanks } from "../../src/archive/rank-rows.ts";
import type { StudyRecord } from "../../src/model/record.ts";
import type { RankResult } from "../../src/model/result.ts";
import { answersText, dictionaryText } from "../../src/report/answer-file.ts";
import { ResultPage } from "../../src/report/result-page.tsx";
import { emptyRecord } from "../analysis/study-records.ts";
import { held, rankingPlan, rested } from "../design/scenario.ts";
import { problemOf } from "../problem-of.ts";
import byR from "../reference/friedman-by-r/values.json" with { type: "json" };
import { openedRecord } from "./opened-record.ts";

afterEach(cleanup);

const demo = byR.rows[0]?.ranks ?? [];
const tablet = "33333333-3333-4333-8333-333333333333";
const [current = "", steamed = ""] = rankingPlan().products.map(({ id }) => id);

/** Scenario Q8: twelve people; tray by tray the codes in the order of their ranks. No order was expected. */
function rankingRecord(predicted: string[] = [], change: Partial<StudyRecord> = {}): StudyRecord {
  const plan = rankingPlan({ ranking: { ...rankingPlan().ranking, predicted } });
  const record = emptyRecord(plan);
  const ids = plan.products.map(({ id }) => id);
  const judgments = demo.map((ranks, at) => {
    const { tray, samples } = record.opened.key.trays[at] ?? { tray: 0, samples: [] };
    const rankOf = (product: string) => ranks[ids.indexOf(product)] ?? 0;
    const codes = samples.toSorted((one, other) => rankOf(one.product) - rankOf(other.product)).map(({ code }) => code);
    const wave = at < 6 ? 1 : 2;
    const choice = codes.join(" ");
    return { tray, seat: tray, wave, device: tablet, question: 1, choice, guess: false, paper: false };
  });
  return { ...record, looks: [], masses: null, portions: [], weighings: [], judgments, ...change };
}
const show = (record: StudyRecord, lead = true) =>
  render(
    <ResultPage
      study={openedRecord(record)}
      lead={lead}
      app="0.1.0"
      now={() => "2026-05-04T08:00:00.000Z"}
      fetchRemarks={async () => []}
    />,
  );
const page = (): string => document.body.textContent ?? "";

describe("a ranking (scenario Q8: rank sums 20, 36, 39, 25; Friedman 12.1 on 3, p = 0.007 by chi-square)", () => {
  test("verdict, numbers and both pictures stand on the page, each picture with a table that says the same", () => {
    show(rankingRecord());
    expect(screen.getByRole("heading", { level: 1 }).textContent).toContain("12.10 on 3 degrees of freedom");
    for (const text of ["0.0070", "rank sum 39", "10 of 12 people put “new, rested” above “current”"]) {
      expect(page()).toContain(text);
    }
    const images = screen.getAllByRole("img");
    expect(images).toHaveLength(2);
    // a dot for each person and product
    expect(images[0]?.querySelectorAll(".dots circle")).toHaveLength(48);
    expect(images[1]?.querySelectorAll(".estimate")).toHaveLength(6);
    for (const image of images) {
      expect(document.getElementById(image.getAttribute("aria-labelledby") ?? "")?.tagName).toBe("FIGCAPTION");
      const table = document.getElementById(image.getAttribute("aria-details") ?? "");
      expect(table?.matches("table") || table?.querySelector("table")).toBeTruthy();
    }
    expect(page()).not.toMatch(/undefined|NaN|\[object/);
  });

  test("how it was done: what was asked, the Williams design, and places and carry-over counted", () => {
    show(rankingRecord());
    expect(page()).toContain("Put the samples in order from least juicy to most juicy.");
    expect(page()).toContain("Williams design");
    const counts = [...document.querySelectorAll(".done table")]
      .filter((table) => /^(Place|Right after)/.test(table.querySelector("th")?.textContent ?? ""))
      .flatMap((table) => [...table.querySelectorAll("tbody td")].map((td) => td.textContent));
    // four products, three times in each place and after each other (Williams 1949); then the mean ranks by place
    expect(counts.slice(0, 32).filter((cell) => cell === "3")).toHaveLength(28);
  });

  test("an order that was expected decides, and the page says so", () => {
    show(rankingRecord([current, held, steamed, rested]));
    expect(screen.getByRole("heading", { level: 1 }).textContent).toContain("Page’s L is 334");
    expect(page()).toContain("for the order expected beforehand: “current”, “new, held”, “new”, “new, rested”");
  });

  test("its file is read back to the same ranks and the same p, and the dictionary describes every column", () => {
    const opened = openedRecord(rankingRecord());
    const text = answersText(opened, true);
    expect(text.split("\r\n")).toHaveLength(1 + 48 + 1);
    const { answers, extraColumns } = readRanks(text, "answers.csv");
    expect(extraColumns).toEqual(["tray", "wave", "order", "position", "code", "batch"]);
    const again = resultOfRankRows({ alpha: 0.05, predicted: [] }, answers, "test");
    const result = opened.result as RankResult;
    expect(again.panelists.map(({ ranks }) => ranks)).toEqual(demo);
    expect([again.friedman, again.pairs]).toEqual([result.friedman, result.pairs]);
    const { fields, primaryKey } = JSON.parse(dictionaryText(opened, true, "answers.csv", "2026-05-04")).resources[0]
      .schema;
    expect(fields.map(({ description }: { description: string }) => description)).not.toContain("");
    expect(primaryKey).toEqual(["tray", "code"]);
  });

  test.each<[string, (answer: string) => string, string]>([
    ["a code of another tray", (answer) => answer.replace(/^\d+/, "100"), "analysis/code-not-on-tray"],
    ["a code twice", (answer) => answer.replace(/^\d+ (\d+)/, "$1 $1"), "analysis/answer-unknown"],
    ["three of four codes", (answer) => answer.replace(/ \d+$/, ""), "analysis/answer-unknown"],
  ])("%s is refused by name, and nothing is computed", (_what, change, code) => {
    const record = rankingRecord();
    const judgments = record.judgments.map((one, at) => (at === 0 ? { ...one, choice: change(one.choice) } : one));
    expect(problemOf(() => analyse({ ...record, judgments }, "test")).code).toBe(code);
  });
});

describe("ranks in a file that cannot be read: what, where, and what to do", () => {
  test.each<[string, string, object]>([
    ["a place beyond the last", "p,new,1\np,old,3\n", { code: "csv/bad-value", details: { line: 3, column: "rank" } }],
    ["a place before the first", "p,new,0\np,old,1\n", { code: "csv/bad-value", details: { line: 2, column: "rank" } }],
    ["a word", "p,new,first\n", { code: "csv/bad-value", details: { line: 2, column: "rank", value: "first" } }],
    ["no product", "p,,1\n", { code: "csv/bad-value", details: { line: 2, column: "product" } }],
    ["a product twice", "p,new,1\np,new,2\n", { code: "csv/duplicate-rank", details: { line: 3, first: 2 } }],
  ])("%s", (_what, rows, found) => {
    expect(problemOf(() => readRanks(`panelist,product,rank\n${rows}`, "ranks.csv"))).toMatchObject(found);
  });
});

test("a ranking by liking says whose liking it is; it is not told to say nothing of liking", () => {
  const whats = (liking: boolean, panelType: "colleagues" | "consumers") => {
    const record = rankingRecord();
    const plan = { ...record.plan, panelType, ranking: { ...record.plan.ranking, liking } };
    return analyse({ ...record, plan }, "1").caveats.map(({ what }) => what);
  };
  expect(whats(true, "colleagues")).toContain("panel-not-customers");
  expect(whats(true, "colleagues")).not.toContain("one-property");
  expect(whats(true, "consumers")).not.toContain("panel-not-customers");
  expect(whats(false, "colleagues")).not.toContain("panel-not-customers");
  expect(whats(false, "colleagues")).toContain("one-property");
});
