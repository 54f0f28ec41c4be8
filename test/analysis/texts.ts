import { expect } from "vitest";
import type { Description } from "../../src/analysis/describe.ts";

const tables = (found: Description) =>
  found.attributes.flatMap(({ means, contrasts }) => [means, contrasts].filter((table) => table !== null));
/** Every text of a description. */
export const texts = (found: Description): string[] => [
  found.test,
  found.verdict,
  found.size,
  found.agreed,
  found.meaning,
  found.caution,
  ...(found.chance ? Object.values(found.chance).map((text) => text ?? "") : []),
  ...[found.rows, ...found.attributes.map(({ rows }) => rows)]
    .flat()
    .flatMap((row) => [row.label, row.value, row.behind]),
  ...found.attributes.flatMap(({ heading, ends, finding, beside, picture }) => [
    heading,
    ends,
    finding,
    beside,
    ...Object.values(picture),
  ]),
  ...tables(found).flatMap(({ caption, columns, rows, note }) => [caption, ...columns, ...rows.flat(), note]),
  ...found.caveats,
  ...found.departures,
];

/** Words that claim more than a test can, or dress up a miss. The list stands in the visual-language page. */
export const banned =
  /no difference|the same\b|identical|proved|proven|confirmed|\btrend|almost|marginal|borderline|significant|failed to|\bhighly\b|\bsimilar|undefined|NaN|null|Infinity|\[object/i;
/** No text has a banned word or a percent sign on its own; what reads as a sentence ends as one. */
export const clean = (found: Description) => {
  for (const text of texts(found)) expect(text).not.toMatch(banned);
  for (const text of texts(found)) expect(text).not.toMatch(/\d[ ]?%/);
  for (const text of [found.verdict, found.size, found.agreed, ...found.caveats]) expect(text).toMatch(/\.$/);
};
