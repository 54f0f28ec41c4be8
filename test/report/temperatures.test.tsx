// @vitest-environment happy-dom

import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";
import * as z from "zod/mini";
import { readTable } from "../../src/archive/csv.ts";
import { temperaturesDictionary, temperaturesText } from "../../src/report/temperature-file.ts";
import { measuredLines } from "../../src/report/temperature-table.ts";
import { Temperatures } from "../../src/report/temperatures.tsx";
import { Cook, recorded } from "../log/kitchen-example.ts";

afterEach(cleanup);

const plain = (text: string | null | undefined): string => (text ?? "").replaceAll("\u00a0", " ");
const cells = (row: Element): string[] =>
  [...row.querySelectorAll("th, td")].map(({ textContent }) => plain(textContent));

/** Two waves; "new 2" read 71 °C, went back and was made anew after all; cups of 54.5 and 56 °C. */
function day() {
  const cook = new Cook();
  for (const [wave, pot] of [
    [1, "KT"],
    [1, "MV"],
    [2, "PW"],
  ] as const)
    cook.core(wave, pot, "75");
  const first = cook.core(2, "RZ", "71");
  cook.core(2, "RZ", "76", { after: [first] });
  cook.change(2, "RZ", "RZC");
  cook.core(2, "RZC", "78");
  cook.held(2, "PW", "hot", "63.5");
  cook.left(1, "KT", "11:50");
  for (const celsius of ["56", "54.5"]) cook.note("serving-read", { wave: 1, tray: null, celsius, note: "" });
  cook.turn(1, "served");
  return recorded(cook);
}

test("batches stand by wave and product with all readings, and the limits with their sources", () => {
  const { container } = render(<Temperatures record={day()} />);
  const rows = [...container.querySelectorAll("tbody tr")].map((row) => cells(row).slice(0, 4));
  expect(rows).toEqual([
    ["1", "current 1", "75 °C", "not recorded"],
    ["1", "new 1", "75 °C", "not recorded"],
    ["2", "current 2", "75 °C", "63.5 °C"],
    ["2", "new 2", "71 °C, then 76 °C", "not recorded"],
    ["2", "new 2 → RZC", "78 °C", "not recorded"],
  ]);
  expect(plain(container.querySelector(".fine")?.textContent)).toContain(
    "Core against 74 °C (USDA chart of safe temperatures, as reproduced by others). Held hot against 60 °C (US consumer page on high-risk foods: the two-hour rule).",
  );
});

test("a column that nobody filled is left out, and so is the table of a day without entries", () => {
  const cook = new Cook();
  cook.core(1, "KT", "75");
  const { unmount } = render(<Temperatures record={recorded(cook)} />);
  expect(screen.getAllByRole("columnheader").map(({ textContent }) => textContent)).toEqual(["Wave", "Batch", "Core"]);
  unmount();
  const { container } = render(<Temperatures record={recorded(new Cook())} />);
  expect(container.textContent).toBe("");
});

test("what was measured stands in a line of the test report", () => {
  expect(measuredLines(day().temperatures).map(plain)).toEqual([
    "Cups as they went out: 54.5 to 56 °C, in 2 readings",
    "Cores of batches: 6 readings, in the table below",
  ]);
});

test("the dictionary names each column of the file, and the file has no more", () => {
  const study = { record: day() };
  const { columns, rows } = readTable(temperaturesText(study, true), "t.csv");
  const shape = z.object({
    resources: z.tuple([
      z.object({
        schema: z.object({
          fields: z.array(
            z.object({
              name: z.string(),
              description: z.string().check(z.minLength(1)),
              constraints: z.optional(z.object({ required: z.optional(z.boolean()) })),
            }),
          ),
        }),
      }),
    ]),
  });
  const [{ schema }] = shape.parse(
    JSON.parse(temperaturesDictionary(study, true, "t.csv", "2026-05-04T08:00:00Z")),
  ).resources;
  expect(schema.fields.map(({ name }) => name)).toEqual(columns);
  const empty = schema.fields.filter(
    (field, at) => field.constraints?.required && rows.some(({ cells }) => cells[at] === ""),
  );
  expect(empty).toEqual([]);
});
