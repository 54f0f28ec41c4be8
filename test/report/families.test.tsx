// @vitest-environment happy-dom
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, describe, expect, test } from "vitest";
import type { Opened } from "../../src/report/opened-study.ts";
import { ResultPage } from "../../src/report/result-page.tsx";
import { report } from "../../src/words/en/report.ts";
import { juicinessMarks, lineRecord } from "../analysis/study-records.ts";
import { linePlan } from "../design/scenario.ts";
import { openedRecord, preferenceStudy, scaleStudy } from "./opened-record.ts";

afterEach(cleanup);

const now = () => "2026-05-04T08:00:00.000Z";
const show = (study: Opened, lead = false) =>
  render(<ResultPage study={study} lead={lead} app="0.1.0" now={now} fetchRemarks={async () => []} />);
const page = (): string => document.body.textContent ?? "";
const headings = (): string[] => screen.getAllByRole("heading", { level: 2 }).map((one) => one.textContent ?? "");
const item = (label: string): string => {
  const term = [...document.querySelectorAll("dt")].find((dt) => dt.textContent === label);
  return term?.nextElementSibling?.textContent ?? "";
};
const rowOf = (caption: RegExp, name: string): string[] => {
  const table = [...document.querySelectorAll("table")].find((one) => caption.test(one.caption?.textContent ?? ""));
  const row = [...(table?.querySelectorAll("tbody tr") ?? [])].find((tr) => tr.firstElementChild?.textContent === name);
  return [...(row?.querySelectorAll("td") ?? [])].map((td) => td.textContent ?? "");
};
/** The order of the page: question, verdict, pictures, numbers, what is not shown, departures, how, details, files. */
const order = ["The numbers", "What this does not show", "Departures from the plan", "How it was done", "Details"];

describe("a preference (scenario Q6: 19 current, 31 new, 10 none; two-sided p = 0.119)", () => {
  test("all three counts, p and the share of those with a preference (62 %, 47 to 75) stand on the page in order", () => {
    show(preferenceStudy());
    expect(headings().filter((heading) => order.includes(heading))).toEqual(order);
    for (const count of ["19 of 60", "31 of 60", "10 of 60"]) expect(page()).toContain(count);
    expect(page()).toMatch(/p\s=\s0\.1189/);
    expect(page()).toMatch(/62\s% of those with a preference/);
    expect(page()).toMatch(/47\s% to 75\s%/);
  });

  test("the picture of chance has both ends of the rule; shares of all asked stand beside, each as an image with a table", () => {
    show(preferenceStudy());
    const images = screen.getAllByRole("img");
    expect(images).toHaveLength(2);
    expect(images[0]?.querySelectorAll(".needed")).toHaveLength(2);
    expect(images[1]?.querySelectorAll(".estimate")).toHaveLength(3);
    for (const image of images) {
      expect(document.getElementById(image.getAttribute("aria-labelledby") ?? "")?.tagName).toBe("FIGCAPTION");
      expect(document.getElementById(image.getAttribute("aria-details") ?? "")?.querySelector("table")).not.toBeNull();
    }
  });

  test("the report says who the panel stands for, what was asked, and the rule for no preference", () => {
    show(preferenceStudy());
    expect(item("Panel")).toContain("Recruited among people who eat the food");
    expect(item("Panel")).toContain("diners of the four canteens");
    expect(item("Ballot")).toContain("Which sample do you prefer?");
    expect(item("“No preference”")).toContain("left out of the test");
    expect(item("Not recorded")).toContain("recruitment and quotas");
  });

  test("the report says whether it was drawn which raw material got which process, and nothing where nobody said", () => {
    const opened = preferenceStudy();
    const withRaw = (raw: typeof opened.record.plan.raw) => {
      cleanup();
      show({ ...opened, record: { ...opened.record, plan: { ...opened.record.plan, raw } } });
    };
    withRaw({ drawn: "drawn", unit: "lots", divided: true, perBatch: 1 });
    expect(item("Raw material and process")).toContain("Drawn at the lock: which lots got which process");
    withRaw({ drawn: "not-drawn" });
    expect(item("Raw material and process")).toContain("Not drawn");
    withRaw({ drawn: "unknown" });
    expect(item("Not recorded")).toContain("raw material and process");
  });
});

test("how each panelist used the scale is the lead's to read, with the four questions and a row a panelist", () => {
  show(scaleStudy());
  expect(page()).not.toContain(report.panel.heading);
  cleanup();
  show(scaleStudy(), true);
  expect(headings()).toContain(report.panel.heading);
  expect(page()).toContain("no reason to leave anybody");
  expect(page()).toContain("Nobody tasted a product twice");
  // range of seat 8 of the scenario's marks: 75.5 less 48.7
  expect(rowOf(/^Panelist by panelist/, "seat 8")[0]).toBe("26.8");
});

describe("a line scale (scenario Q7: F(2, 22) = 10.5, p = 0.0006; new less current 11.9, 5.3 to 18.5)", () => {
  test("F, p and the pair stand on the page as printed in the scenario", () => {
    show(scaleStudy());
    expect(headings().filter((heading) => order.includes(heading))).toEqual(order);
    expect(page()).toMatch(/F\(2, 22\) is 10\.4/);
    expect(page()).toMatch(/p\s=\s0\.0006/);
    expect(rowOf(/^Differences/, "“new” less “current”").slice(0, 2)).toEqual(["11.9", "5.3 to 18.5"]);
    expect(rowOf(/^Differences/, "“new, rested” less “new”").slice(0, 2)).toEqual(["1.4", "\u22125.2 to 8.1"]);
  });

  test("everybody's marks are drawn under the seat, and one row for each of three pairs", () => {
    show(scaleStudy());
    const [marks, pairs] = screen.getAllByRole("img");
    expect(marks?.querySelectorAll(".dots circle")).toHaveLength(36);
    expect(pairs?.querySelectorAll(".row")).toHaveLength(3);
    const table = document.getElementById(marks?.getAttribute("aria-details") ?? "");
    expect(table?.textContent).toContain("seat 12");
    expect(document.getElementById(pairs?.getAttribute("aria-details") ?? "")?.querySelector("table")).not.toBeNull();
  });

  test("the report holds scale form and length, end words, definition, moment, repeats, design and model", () => {
    show(scaleStudy());
    expect(item("Scale")).toMatch(/120\smm without ticks, numbers or a start value/);
    const property = item("Property: Juiciness, after 10\u00a0seconds of chewing");
    expect(property).toContain("From “not at all juicy” to “extremely juicy”");
    expect(property).toContain("Juice that is felt in the mouth while chewing.");
    expect(item("Repeats")).toContain("None");
    expect(item("Design")).toContain("Williams design");
    expect(item("Model and error term")).toContain("panelists by products");
    expect(item("Model and error term")).toContain("left out of the model");
  });

  test("places and carry-over are counted: each of three products 4 times in each place and after each other (Williams 1949)", () => {
    show(scaleStudy());
    const tables = [...document.querySelectorAll(".done table")].filter((table) =>
      /^(Place|Right after)/.test(table.querySelector("th")?.textContent ?? ""),
    );
    const cells = tables
      .slice(0, 2)
      .flatMap((table) => [...table.querySelectorAll("tbody td")].map((td) => td.textContent));
    expect(cells).toHaveLength(18);
    expect(cells.filter((cell) => cell === "\u2013")).toHaveLength(3);
    expect(new Set(cells)).toEqual(new Set(["4", "\u2013"]));
  });

  test("a mark never made is named by seat and product, and is no zero", () => {
    const marks = juicinessMarks.map((row, at) => [at === 4 ? [row[0], null, row[2]] : row.slice()]);
    show(openedRecord(lineRecord(linePlan(), marks as (number | null)[][][])));
    expect(page()).toContain("Without a mark: seat 5 (“new”). No mark is no answer, not zero.");
    expect(rowOf(/^Means/, "new").slice(0, 1)).toEqual(["11"]);
  });

  test("further properties follow, marked as looked at beside the question", () => {
    const plan = linePlan();
    const [first] = plan.scale.attributes;
    const other = { ...first, id: "7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b05", name: "Saltiness", adjective: "salty" };
    const attributes = [first, other] as typeof plan.scale.attributes;
    const people = juicinessMarks.map((row) => [row.slice(), row.toReversed()]);
    show(openedRecord(lineRecord({ ...plan, scale: { ...plan.scale, attributes } }, people)));
    const beside = screen.getByRole("heading", { name: "Looked at beside the question" }).closest("section");
    expect(beside?.textContent).toContain("Saltiness");
    expect(beside?.textContent).not.toContain("Juiciness, 10");
    const [lead] = screen.getAllByRole("img");
    expect(lead?.compareDocumentPosition(beside as Node)).toBe(Node.DOCUMENT_POSITION_FOLLOWING);
  });

  test("two products: the estimation plot, with one image and one pair", () => {
    const plan = linePlan();
    const products = plan.products.slice(0, 2);
    const people = juicinessMarks.map((row) => [row.slice(0, 2)]);
    show(openedRecord(lineRecord({ ...plan, products }, people)));
    const images = screen.getAllByRole("img");
    expect(images).toHaveLength(1);
    expect(images[0]?.querySelector(".difference .interval")).not.toBeNull();
    expect(images[0]?.textContent).toContain("11.9");
  });
});

describe("what a reader must not see", () => {
  test("means by place only where every place has five marks or more; a lead sees them all", () => {
    const few = openedRecord(
      lineRecord(
        linePlan(),
        juicinessMarks.slice(0, 4).map((row) => [row.slice()]),
      ),
    );
    show(few);
    expect(page()).not.toContain("By place on the tray");
    cleanup();
    show(few, true);
    expect(page()).toContain("By place on the tray");
  });

  test("no time of a person, in seconds or milliseconds", () => {
    show(scaleStudy());
    expect(page()).not.toMatch(/4000|\b4\s?s\b|seconds to/i);
  });
});

test("a demo says first that it is invented", () => {
  const study = scaleStudy();
  const told = study.result.study;
  if (!told) throw new Error("a study has its part in the result");
  show({ ...study, result: { ...study.result, study: { ...told, invented: true } } });
  const said = screen.getByText(/invented kitchen/);
  expect(said.compareDocumentPosition(screen.getByRole("heading", { level: 1 }))).toBe(
    Node.DOCUMENT_POSITION_FOLLOWING,
  );
});
