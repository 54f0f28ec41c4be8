import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { readChoices } from "../../src/archive/choice-rows.ts";
import { readTable } from "../../src/archive/csv.ts";
import { readScale } from "../../src/archive/scale-rows.ts";
import { answersText, dictionaryText } from "../../src/report/answer-file.ts";
import type { Opened } from "../../src/report/opened-study.ts";
import { openedExample } from "./opened.ts";
import { preferenceStudy, scaleStudy } from "./opened-record.ts";

const path = "steam-first-answers.csv";
const created = "2026-05-04T08:00:00.000Z";

/** What Table Schema (specs.frictionlessdata.io) lets a field be, as far as it is used here. */
const field = z.strictObject({
  name: z.string(),
  title: z.string().check(z.minLength(1)),
  description: z.string().check(z.minLength(1)),
  type: z.enum(["string", "integer", "number"]),
  constraints: z.optional(
    z.strictObject({
      required: z.optional(z.boolean()),
      minimum: z.optional(z.number()),
      maximum: z.optional(z.number()),
      enum: z.optional(z.array(z.union([z.string(), z.number()]))),
      pattern: z.optional(z.string()),
    }),
  ),
});
type Field = z.infer<typeof field>;
/** A tabular data package of version 1: names in lower case, one resource with a relative path and a schema. */
const name = z.string().check(z.regex(/^[a-z0-9._-]+$/));
const dataPackage = z.object({
  profile: z.literal("tabular-data-package"),
  name,
  created: z.string(),
  resources: z.tuple([
    z.object({
      profile: z.literal("tabular-data-resource"),
      name,
      path: z.string().check(z.regex(/^[^/].*\.csv$/)),
      schema: z.object({
        fields: z.array(field),
        missingValues: z.array(z.literal("")),
        primaryKey: z.array(z.string()),
      }),
    }),
  ]),
});
const dictionaryOf = (study: Opened, lead = false) => {
  const [resource] = dataPackage.parse(JSON.parse(dictionaryText(study, lead, path, created))).resources;
  return resource;
};

/** Why a cell does not fit its field; null when it does. An empty cell is a missing value. */
function misfit(cell: string, { type, constraints = {} }: Field): string | null {
  if (cell === "") return constraints.required ? "required" : null;
  const { minimum, maximum, pattern } = constraints;
  if (type === "integer" && !/^[+-]?\d+$/.test(cell)) return "no integer";
  if (type === "number" && !/^[+-]?\d+(\.\d+)?(e[+-]?\d+)?$/i.test(cell)) return "no number";
  if (minimum !== undefined && Number(cell) < minimum) return `below ${minimum}`;
  if (maximum !== undefined && Number(cell) > maximum) return `above ${maximum}`;
  if (pattern !== undefined && !new RegExp(`^(?:${pattern})$`).test(cell)) return `not ${pattern}`;
  const values = constraints.enum?.map(String);
  return values && !values.includes(cell) ? `not one of ${values.join(", ")}` : null;
}

describe.each([
  ["triangle", openedExample],
  ["preference", preferenceStudy],
  ["line scale", scaleStudy],
] as const)("the data dictionary of a %s", (_, study) => {
  test("names the file and exactly its columns, in order", () => {
    const { columns } = readTable(answersText(study(), false), path);
    const resource = dictionaryOf(study());
    expect(resource.path).toBe(path);
    expect(resource.schema.fields.map((one) => one.name)).toEqual(columns);
  });

  test("fits every cell of the file: type, bounds, allowed values, what may be missing", () => {
    const { fields } = dictionaryOf(study(), true).schema;
    const { rows } = readTable(answersText(study(), true), path);
    const wrong = rows.flatMap(({ line, cells }) =>
      fields.flatMap((one, at) => {
        const why = misfit(cells[at] ?? "", one);
        return why === null ? [] : [`line ${line}, ${one.name}: ${why}`];
      }),
    );
    expect(rows.length).toBeGreaterThan(20);
    expect(wrong).toEqual([]);
  });

  test("its primary key names each row once", () => {
    const { primaryKey } = dictionaryOf(study()).schema;
    const { columns, rows } = readTable(answersText(study(), false), path);
    const names = rows.map(({ cells }) => primaryKey.map((column) => cells[columns.indexOf(column)]).join("|"));
    expect(new Set(names).size).toBe(rows.length);
  });
});

test("a line scale reads back: 36 marks, the first seat's as in the scenario (58.4, 64.0, 67.1)", () => {
  const { answers } = readScale(answersText(scaleStudy(), false), path);
  expect(answers).toHaveLength(36);
  const own = answers.filter(({ panelist }) => panelist === "seat-1").map(({ value }) => value);
  expect(own.toSorted((a, b) => (a ?? 0) - (b ?? 0))).toEqual([58.4, 64, 67.1]);
});

test("a preference reads back: 19, 31 and 10 (scenario Q6)", () => {
  const { answers } = readChoices(answersText(preferenceStudy(), false), path);
  const votes = (choice: string | null) => answers.filter((answer) => answer.choice === choice).length;
  expect([votes("current"), votes("new"), votes(null)]).toEqual([19, 31, 10]);
});

test("how long a person took is in a lead's file and in no reader's", () => {
  const columns = (lead: boolean) => readTable(answersText(scaleStudy(), lead), path).columns;
  expect(columns(true)).toContain("answer_seconds");
  expect(columns(false)).toEqual(columns(true).filter((column) => column !== "answer_seconds"));
  expect(dictionaryOf(scaleStudy()).schema.fields.map((one) => one.name)).not.toContain("answer_seconds");
});
