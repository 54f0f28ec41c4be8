// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { Elsewhere } from "../../src/report/elsewhere.tsx";
import { chewRows } from "../analysis/chew-example.ts";
import { csvOf, fishRows, fishScores, wineRows, wineScores } from "../analysis/score-rows.ts";

const asked = vi.fn();
beforeEach(() => {
  vi.stubGlobal("fetch", asked);
  render(<Elsewhere app="0.1.0" now={() => "2026-05-04T08:00:00.000Z"} />);
});
afterEach(() => {
  cleanup();
  // nothing of the file leaves the page
  expect(asked).not.toHaveBeenCalled();
  vi.unstubAllGlobals();
});

const choose = (text: string, name = "answers.csv"): void => {
  const file = new File([text], name, { type: "text/csv" });
  const input = screen.getByLabelText(/^CSV file/);
  Object.defineProperty(input, "files", { configurable: true, value: [file] });
  fireEvent.change(input);
};
const pick = (label: string): void => void fireEvent.click(screen.getByLabelText(label));
const compute = (): void => void fireEvent.click(screen.getByRole("button", { name: "Compute the result" }));
const verdict = async (): Promise<string> =>
  (await waitFor(() => screen.getByRole("heading", { level: 1, name: /:|No |too few/ }))).textContent ?? "";
const problem = async (text: RegExp): Promise<void> => {
  await waitFor(() => expect(screen.getByRole("alert").textContent).toMatch(text));
};
const page = (): string => document.body.textContent ?? "";
/** So many right of so many, one answer a person. */
const triangles = (right: number, of: number): string =>
  `panelist,correct\n${Array.from({ length: of }, (_, at) => `p${at + 1},${at < right ? 1 : 0}`).join("\n")}\n`;

describe("a file gives the result page without a study", () => {
  test("triangle, 25 of 50 (Byer and Abrams 1953, as quoted from Hollander and Wolfe, example 2.2): 23 needed, p = 0.0108", async () => {
    choose(triangles(25, 50), "plant.csv");
    compute();
    expect(await verdict()).toMatch(/25 of 50.*23/);
    expect(page()).toMatch(/p\s=\s0\.0108/);
    expect(page()).toContain("plant.csv");
    expect(page()).toContain("not a study of Cloche");
    expect(page()).not.toContain("Verify this result");
    expect(screen.getAllByRole("img")).toHaveLength(2);
  });

  test("preference, 18 of 24 two-sided: p = 0.0227 (R binom.test(18, 24))", async () => {
    pick("Paired preference");
    const rows = Array.from({ length: 24 }, (_, at) => `p${at + 1},${at < 18 ? "new" : "current"}`);
    choose(`panelist,choice\n${rows.join("\n")}\n`);
    compute();
    expect(await verdict()).toMatch(/preferred “new” to “current”: 18 of 24/);
    expect(page()).toMatch(/p\s=\s0\.0227/);
  });

  test("the chosen rule for no preference is the one that is used", async () => {
    pick("Paired preference");
    pick("was not an answer");
    choose("panelist,choice\na,new\nb,none\n");
    compute();
    await problem(/no preference/i);
  });

  test("line scale, the two-way scores read in print: F of samples over the interaction as computed from them in R", async () => {
    pick("Rating scale");
    choose(csvOf(fishRows), "scores.csv");
    compute();
    await verdict();
    // four assessors are no panel: the numbers stand without a verdict
    const row = screen.getByRole("rowheader", { name: "F, products" }).closest("tr");
    expect(Number(row?.querySelector(".number")?.textContent)).toBeCloseTo(
      fishScores.computed.F_sample_over_interaction,
      2,
    );
    for (const [at, mean] of fishScores.printedSampleMeans.entries()) {
      const product = fishScores.rows[at]?.[0] ?? "";
      const row = [...document.querySelectorAll("tbody tr")].find(
        (tr) => tr.firstElementChild?.textContent === product && tr.querySelector("td[data-head='Mean']"),
      );
      // printed with one decimal
      expect(Number(row?.querySelector("td[data-head='Mean']")?.textContent)).toBeCloseTo(mean, 0);
    }
  });

  test("line scale, wine bitterness (Randall 1989, dataset wine): means as in R, one row a pair of four wines", async () => {
    pick("Rating scale");
    choose(csvOf(wineRows), "wine.csv");
    compute();
    await verdict();
    for (const mean of Object.values(wineScores.computed.means)) expect(page()).toContain(mean.toFixed(1));
    const images = screen.getAllByRole("img");
    expect(images).toHaveLength(2);
    expect(images[1]?.querySelectorAll(".row")).toHaveLength(6);
  });
});

describe("chewed portions", () => {
  const file = `panelist,product,repeat,gain_percent,seconds\n${chewRows
    .map(({ panelist, product, repeat, gainPercent }) => [panelist, product, repeat, gainPercent, 15].join(","))
    .join("\n")}\n`;

  // t.test of R 4.2.2 on the invented scenario's gains: 2.9 points, 1.4 to 4.5; 8 people (test/reference/mass-by-r)
  test("the scenario's gains as the terminal reads them: people are the unit, and no direction is presumed", async () => {
    pick("Chew and weigh");
    choose(file, "gains.csv");
    compute();
    await waitFor(() => expect(document.querySelector("h1.verdict")).not.toBeNull());
    expect(page()).toMatch(/2\.9.percentage points/);
    expect(page()).toMatch(/1\.4.*4\.5/);
  });

  test("a control that the file does not have, and a step that is no mass, are named", async () => {
    pick("Chew and weigh");
    choose(file, "gains.csv");
    fireEvent.input(screen.getByLabelText(/^Inert portion/), { target: { value: "silicone" } });
    compute();
    await problem(/no product “silicone”.*current, new/);
    fireEvent.input(screen.getByLabelText(/^Step of the balance/), { target: { value: "fine" } });
    compute();
    await problem(/Step of the balance/);
  });
});

describe("bad input is named, and nothing is lost", () => {
  test.each([
    ["no file", null, /Choose a CSV file first/],
    [
      "a value that is neither 1 nor 0",
      "panelist,correct\np1,1\np2,yes\n",
      /answers\.csv, line 3, column “correct”.*yes/,
    ],
    ["a missing column", "panelist,right\np1,1\n", /correct/],
    ["the same panelist and repeat twice", "panelist,correct\np1,1\np1,0\n", /line 3.*line 2/],
    ["a row that is too long", "panelist,correct\np1,1,7\n", /line 2/],
    ["a header alone", "panelist,correct\n", /no answers/],
  ] as const)("%s", async (_, text, said) => {
    if (text !== null) choose(text);
    compute();
    await problem(said);
  });

  test("a risk that is none is asked for again, and the file stays chosen", async () => {
    choose(triangles(14, 24), "kitchen.csv");
    fireEvent.input(screen.getByLabelText(/alpha/), { target: { value: "80" } });
    compute();
    await problem(/alpha.*above 0 and at most 50/);
    fireEvent.input(screen.getByLabelText(/alpha/), { target: { value: "5" } });
    compute();
    expect(await verdict()).toMatch(/14 of 24/);
  });

  test("going back keeps what was typed, and other columns are named as not read", async () => {
    choose("panelist,correct,booth\np1,1,3\np2,0,4\n", "kitchen.csv");
    fireEvent.input(screen.getByLabelText(/alpha/), { target: { value: "10" } });
    compute();
    await waitFor(() => expect(page()).toContain("Not read: the column “booth”."));
    fireEvent.click(screen.getByRole("button", { name: "Other answers" }));
    expect((screen.getByLabelText(/alpha/) as HTMLInputElement).value).toBe("10");
    expect(page()).toContain("Chosen: kitchen.csv");
  });

  test("a file in the alphabet of an older spreadsheet is read all the same", async () => {
    pick("Paired preference");
    const rows = Array.from({ length: 8 }, (_, at) => `p${at + 1},${at < 7 ? "gebr\u00e4unt" : "roh"}`).join("\r\n");
    const bytes = Uint8Array.from(`panelist;choice\r\n${rows.replaceAll(",", ";")}`, (sign) => sign.charCodeAt(0));
    const input = screen.getByLabelText(/^CSV file/);
    const file = new File([bytes], "old.csv", { type: "text/csv" });
    Object.defineProperty(input, "files", { configurable: true, value: [file] });
    fireEvent.change(input);
    compute();
    expect(await verdict()).toContain("gebr\u00e4unt");
  });
});

test("the page says that nothing is uploaded", () => {
  expect(page()).toContain("Nothing is sent anywhere, and nothing is kept.");
});
