import { rowVerdicts } from "../model/kitchen-record.ts";

/**
 * A data dictionary beside a CSV file, as the open Data Package standard has it: a tabular data package with one
 * resource and its table schema (profiles of version 1, which readers of version 2 take too).
 */
type FieldType = "string" | "integer" | "number";
type Constraints = {
  required?: boolean;
  minimum?: number;
  maximum?: number;
  enum?: (string | number)[];
  pattern?: string;
};
/** What is known of a column by its name alone. */
type FieldShape = { type: FieldType; constraints?: Constraints };
type Field = FieldShape & { name: string; title: string; description: string };

export type DataPackage = {
  profile: "tabular-data-package";
  name: string;
  title: string;
  description: string;
  created: string;
  resources: [
    {
      profile: "tabular-data-resource";
      name: string;
      path: string;
      format: "csv";
      mediatype: "text/csv";
      encoding: "utf-8";
      dialect: { delimiter: ","; lineTerminator: "\r\n"; quoteChar: '"'; doubleQuote: true; header: true };
      schema: { fields: Field[]; missingValues: [""]; primaryKey?: string[] };
    },
  ];
};

const whole = (minimum: number): FieldShape => ({ type: "integer", constraints: { required: true, minimum } });
const flag: FieldShape = { type: "integer", constraints: { required: true, enum: [0, 1] } };
const text: FieldShape = { type: "string" };
const needed: FieldShape = { type: "string", constraints: { required: true } };

const seconds: FieldShape = { type: "number", constraints: { minimum: 0 } };

/** Columns of the files of answers, by name. What is not listed is a text that may be missing. */
const shapes: Record<string, FieldShape> = {
  panelist: needed,
  repeat: whole(1),
  correct: flag,
  choice: needed,
  served: needed,
  answer: needed,
  question: whole(1),
  property: needed,
  reference_product: needed,
  position_chosen: { type: "integer", constraints: { minimum: 1, maximum: 2 } },
  product: needed,
  seconds,
  attribute: needed,
  rank: whole(1),
  value: { type: "number", constraints: { minimum: 0, maximum: 100 } },
  why: {
    type: "string",
    constraints: { enum: ["not-perceived", "not-understood", "sample", "other", "no-answer-in-time"] },
  },
  tray: whole(1),
  wave: whole(0),
  order: { type: "string", constraints: { required: true, pattern: "([A-L]:)?[A-L]{1,12}" } },
  position: whole(1),
  position_of_odd: { type: "integer", constraints: { required: true, minimum: 1, maximum: 3 } },
  position_of_right: { type: "integer", constraints: { required: true, minimum: 1, maximum: 12 } },
  pairs: {
    type: "string",
    constraints: { required: true, pattern: "[1-9][0-9]{2}\\+[1-9][0-9]{2} [1-9][0-9]{2}\\+[1-9][0-9]{2}" },
  },
  code: { type: "string", constraints: { required: true, pattern: "[1-9][0-9]{2}" } },
  code_chosen: { type: "string", constraints: { pattern: "[1-9][0-9]{2}" } },
  guess: flag,
  what: needed,
  celsius: { type: "number" },
  held_seconds: seconds,
  rest_minutes: seconds,
  verdict: { type: "string", constraints: { enum: [...rowVerdicts] } },
  follows_nothing: flag,
  chewed_seconds: seconds,
  answer_seconds: seconds,
  line_mm: { type: "number", constraints: { minimum: 0 } },
  hidden: { type: "integer", constraints: { enum: [0, 1] } },
};

function fieldShape(column: string, mayMiss: readonly string[]): FieldShape {
  const shape = shapes[column] ?? text;
  if (!mayMiss.includes(column) || !shape.constraints) return shape;
  const { required: _required, ...constraints } = shape.constraints;
  return { type: shape.type, ...(Object.keys(constraints).length > 0 ? { constraints } : {}) };
}

/** A name as the standard asks for: lower-case letters, digits, dots, dashes and underscores. */
export const packageName = (title: string): string =>
  title
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9._-]+/g, "-")
    .replace(/^[-._]+|[-._]+$/g, "") || "study";

/**
 * The dictionary of a CSV file that `writeTable` wrote.
 *
 * Takes    columns: of the file's header, in its order; describe: title and description of a column, in the reader's
 *          language; key: columns that together name a row, if any do
 */
export function dataPackage(of: {
  title: string;
  description: string;
  created: string;
  path: string;
  columns: readonly string[];
  describe: (column: string) => { title: string; description: string };
  key: readonly string[];
  /** Columns that may be empty in this file, though files of answers always have them. */
  mayMiss?: readonly string[];
}): DataPackage {
  const key = of.key.filter((column) => of.columns.includes(column));
  return {
    profile: "tabular-data-package",
    name: packageName(of.title),
    title: of.title,
    description: of.description,
    created: of.created,
    resources: [
      {
        profile: "tabular-data-resource",
        name: packageName(of.path.replace(/\.csv$/, "")),
        path: of.path,
        format: "csv",
        mediatype: "text/csv",
        encoding: "utf-8",
        dialect: { delimiter: ",", lineTerminator: "\r\n", quoteChar: '"', doubleQuote: true, header: true },
        schema: {
          fields: of.columns.map((name) => ({ name, ...of.describe(name), ...fieldShape(name, of.mayMiss ?? []) })),
          missingValues: [""],
          ...(key.length > 0 ? { primaryKey: key } : {}),
        },
      },
    ],
  };
}
