// @vitest-environment happy-dom
import { createHash } from "node:crypto";
import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { resultOfCounts } from "../../src/analysis/analyse.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { readAnswers } from "../../src/archive/answer-rows.ts";
import { readStudyFile } from "../../src/archive/study-file.ts";
import { result as resultSchema } from "../../src/model/result.ts";
import type { Opened } from "../../src/report/opened-study.ts";
import { ResultPage } from "../../src/report/result-page.tsx";
import { report } from "../../src/words/en/report.ts";
import { studyEvents, withoutEvents } from "../archive/scenario.ts";
import { openedExample } from "./opened.ts";

afterEach(cleanup);

const now = () => "2026-05-04T08:00:00.000Z";
const show = (study: Opened, lead = false, fetchRemarks = vi.fn(async () => [] as never[])) =>
  render(<ResultPage study={study} lead={lead} app="0.1.0" now={now} fetchRemarks={fetchRemarks} />);

/** The example study with other counts, as if so many had answered. */
function withCounts(correct: number, judgments: number): Opened {
  const study = openedExample();
  const counts = resultOfCounts({ method: "triangle", goal: "difference", alpha: 0.05, correct, judgments }, "0.1.0");
  return { ...study, result: { ...study.result, ...counts, study: study.result.study } };
}
const row = (label: string): string =>
  screen.getByRole("rowheader", { name: label }).closest("tr")?.querySelector(".number")?.textContent ?? "";

describe("25 of 50 (Byer and Abrams 1953, as quoted from Hollander and Wolfe, example 2.2)", () => {
  beforeEach(() => void show(withCounts(25, 50)));

  test("the verdict sentence of describe is the heading, with 23 needed (exact tail, R pbinom)", () => {
    const { verdict } = describeResult(withCounts(25, 50).result, report);
    const heading = screen.getByRole("heading", { level: 1 });
    expect(heading.textContent).toBe(verdict);
    expect(heading.textContent).toContain("25 of 50");
    expect(heading.textContent).toContain("23");
  });

  test("p is 0.0108 in the table and in words", () => {
    expect(row("p, exact")).toBe("0.0108");
    expect(screen.getByRole("complementary").textContent).toContain("p\u00a0=\u00a00.0108");
  });

  test("the picture has 100 dots and is named by its caption", () => {
    const [image] = screen.getAllByRole("img");
    if (!image) throw new Error("no picture");
    expect(image.querySelectorAll("circle")).toHaveLength(100);
    const caption = document.getElementById(image.getAttribute("aria-labelledby") ?? "");
    expect(caption?.tagName).toBe("FIGCAPTION");
    expect(document.getElementById(image.getAttribute("aria-details") ?? "")?.querySelector("table")).not.toBeNull();
  });
});

test("p far below the last shown digit is words, never 0 (60 of 60: 3^-60, by hand)", () => {
  show(withCounts(60, 60));
  expect(row("p, exact")).toBe("less than 0.0001");
  expect(document.body.textContent).not.toMatch(/p\s=\s0(\.0+)?[^.\d]/);
});

test("no answers: no picture, no number but the counts, and no verdict", () => {
  show(withCounts(0, 0));
  expect(screen.queryByRole("img")).toBeNull();
  expect(screen.getByRole("heading", { level: 1 }).textContent).toContain("no result");
});

test("14 of 24 (domain scenario Q1: needs 13, p = 0.0103): question, key, batches, blanks", () => {
  show(openedExample());
  const page = document.body.textContent ?? "";
  expect(page).toContain("Can the staff panel tell the steamed process from the current one?");
  expect(page).toContain("key matches its seal");
  expect(row("Needed")).toBe("13");
  expect(row("p, exact")).toBe("0.0103");
  expect(page).toContain("Batches served: C1, C2, C3");
  const blanks = screen.getByText("Not recorded").nextElementSibling?.textContent;
  for (const item of ["panel leader", "standard and edition", "experience and selection", "raw material and process"])
    expect(blanks).toContain(item);
});

test("a key that does not match its seal stops the reader before any number", () => {
  const texts = studyEvents().map((text) =>
    text.includes('"key-revealed"') ? text.replace("ab".repeat(32), "cd".repeat(32)) : text,
  );
  show(openedExample(14, texts));
  const [first] = screen.getAllByRole("alert");
  expect(first?.textContent).toMatch(/^Stop\./);
  expect(first?.compareDocumentPosition(screen.getByRole("heading", { level: 1 }))).toBe(
    Node.DOCUMENT_POSITION_FOLLOWING,
  );
  expect(screen.getByRole("heading", { level: 1 }).textContent).toMatch(/^No verdict/);
  expect(document.body.textContent).not.toMatch(/could tell “|what this result calls for/);
});

test("records cut off the end of a tablet's chain: a stop above the numbers, and a departure", () => {
  show(
    openedExample(
      14,
      withoutEvents(studyEvents(), (device, seq) => device === "tablet" && seq > 69),
    ),
  );
  expect(screen.getByRole("alert").textContent).toMatch(/^Stop\..*3\srecords/);
  const departures = screen.getByRole("heading", { name: "Departures from the plan" }).closest("section");
  expect(departures?.textContent).toContain("3 records known at the close or the reveal are missing here");
  expect(departures?.textContent).toContain("Tray 24: no counted answer (never opened)");
});

test("what was noted at the close stands among the departures", () => {
  show(openedExample(14, studyEvents({ note: "power cut at 12:40" })));
  expect(screen.getByText("Noted at the close: “power cut at 12:40”")).toBeTruthy();
});

test("bounds stand in a column of their own beside the number", () => {
  show(openedExample());
  const cells = screen.getByRole("rowheader", { name: "Share right" }).closest("tr")?.querySelectorAll("td");
  expect([...(cells ?? [])].map((cell) => cell.textContent)).toEqual([
    "58\u00a0%",
    "37\u00a0% to 78\u00a0%, 95\u00a0% interval",
  ]);
});

test("groups under five people are not broken down for a reader, and are for the lead", () => {
  const columns = (head: string): string[] =>
    [...(screen.getByRole("columnheader", { name: head }).closest("tr")?.children ?? [])].map(
      (th) => th.textContent ?? "",
    );
  show(openedExample());
  expect(columns("Order served")).toEqual(["Order served", "Answered"]);
  expect(columns("Place of the odd sample")).toEqual(["Place of the odd sample", "Answered", "Right"]);
  cleanup();
  show(openedExample(), true);
  expect(columns("Order served")).toEqual(["Order served", "Answered", "Right"]);
});

test("verifying says what was checked", async () => {
  show(openedExample());
  fireEvent.click(screen.getByRole("button", { name: "Verify this result" }));
  await waitFor(() => expect(screen.getByRole("status").textContent).toContain("Verified"));
  const said = screen.getByRole("status").textContent ?? "";
  expect(said).not.toContain("Not verified");
  expect(said).toContain("the same in every digit");
});

describe("remarks", () => {
  const remarkTrays = new Map([
    ["01900000-0000-7000-8000-000000000101", 12],
    ["01900000-0000-7000-8000-000000000102", 3],
  ]);
  const remark = (event: string, text: string) => ({ event, salt: "a".repeat(64), text });

  test("a reader gets no button for them", () => {
    show({ ...openedExample(), remarkTrays });
    expect(screen.queryByRole("button", { name: /Remarks/ })).toBeNull();
  });

  test("a lead fetches them on demand, by tray, as text only", async () => {
    const fetchRemarks = vi.fn(async () => [
      remark("01900000-0000-7000-8000-000000000101", "<img src=x onerror=alert(1)>"),
      remark("01900000-0000-7000-8000-000000000102", "a little dry"),
    ]);
    render(
      <ResultPage study={{ ...openedExample(), remarkTrays }} lead app="0.1.0" now={now} fetchRemarks={fetchRemarks} />,
    );
    expect(fetchRemarks).not.toHaveBeenCalled();
    fireEvent.click(screen.getByRole("button", { name: "Remarks from panelists (2)" }));
    const list = (await screen.findByText("a little dry")).closest("dl") as HTMLElement;
    expect([...list.querySelectorAll("dt")].map((dt) => dt.textContent)).toEqual(["tray 3-7", "tray 12-5"]);
    expect(within(list).getByText("<img src=x onerror=alert(1)>")).toBeTruthy();
    expect(list.querySelector("img")).toBeNull();
    expect(list.closest(".screen-only")).not.toBeNull();
  });
});

describe("files", () => {
  const saved = new Map<string, Blob>();
  beforeEach(() => {
    saved.clear();
    let last: Blob | null = null;
    vi.spyOn(URL, "createObjectURL").mockImplementation((blob) => {
      last = blob as Blob;
      return "blob:saved";
    });
    vi.spyOn(HTMLAnchorElement.prototype, "click").mockImplementation(function (this: HTMLAnchorElement) {
      if (last) saved.set(this.download, last);
    });
  });
  afterEach(() => void vi.restoreAllMocks());
  const text = async (button: string, name: string): Promise<string> => {
    fireEvent.click(screen.getByRole("button", { name: button, hidden: true }));
    const blob = saved.get(name);
    if (!blob) throw new Error(`${name} was not saved, but ${[...saved.keys()].join(", ")}`);
    return blob.text();
  };

  test("the result as JSON reads back to the same numbers", async () => {
    const study = openedExample();
    show(study);
    const read = JSON.parse(await text("Result (JSON)", "steam-first-result.json"));
    expect(resultSchema.parse(read)).toEqual(study.result);
  });

  test("the data as CSV reads back to 14 right of 24 (scenario Q1)", async () => {
    show(openedExample());
    const { answers } = readAnswers(await text("Answers (CSV)", "steam-first-answers.csv"), "answers.csv");
    expect(answers).toHaveLength(24);
    expect(answers.filter(({ correct }) => correct)).toHaveLength(14);
  });

  test("the study file reads back to the same events", async () => {
    const study = openedExample();
    show(study);
    const file = readStudyFile(await text("Study file", "steam-first-study.json"), "study.json");
    expect(file.events).toEqual(study.texts);
    expect(file.exportedAt).toBe(now());
  });

  test("the hashed text gives the locked commitment by node:crypto, an implementation of its own", async () => {
    const study = openedExample();
    show(study);
    const hashed = await text("Save the text that was hashed", "steam-first-key.txt");
    expect(createHash("sha256").update(hashed).digest("hex")).toBe(study.record.commitment);
  });

  test("the picture is an SVG of its own with 100 dots", async () => {
    show(openedExample());
    const svg = await text("SVG", "steam-first-chance.svg");
    expect(svg).toMatch(/^<\?xml/);
    expect(svg).toContain('xmlns="http://www.w3.org/2000/svg"');
    expect(svg.match(/<circle/g)).toHaveLength(100);
    expect(svg).not.toContain("aria-hidden");
  });
});
