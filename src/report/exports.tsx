import { pointsOf } from "../analysis/analyse-scale.ts";
import type { Description } from "../analysis/describe.ts";
import { markedLines, markedPreferences, markedTriangles } from "../analysis/marking.ts";
import { answersCsv } from "../archive/answers-csv.ts";
import { readTable } from "../archive/csv.ts";
import { dataPackage } from "../archive/data-package.ts";
import { marksCsv } from "../archive/marks-csv.ts";
import { preferencesCsv } from "../archive/preferences-csv.ts";
import type { Result } from "../model/result.ts";
import { saveText } from "../ui/save.ts";
import { reader } from "../words/en/reader.ts";
import { columnText } from "../words/en/reader-files.ts";
import { figuresOf } from "./figures.tsx";
import type { Opened } from "./load.ts";
import { PictureFiles } from "./picture-files.tsx";
import { studyText } from "./study-text.ts";

type Props = { study: Opened; said: Description; app: string; now: () => string };

/** Buttons that print the page and save what it was made from. */
export function Exports({ study, said, app, now }: Props) {
  const words = reader.exports;
  const { title } = study.record.plan;
  const name = (what: string): string => reader.exports.fileName(title, what);
  const save = (what: string, type: string, text: string): void => saveText(name(what), type, text);
  return (
    <>
      <div class="buttons">
        <PrintButton />
        <button type="button" onClick={() => save("result.json", "application/json", resultText(study.result))}>
          {words.json}
        </button>
        <button type="button" onClick={() => save("study.json", "application/json", studyText(study, app, now()))}>
          {words.study}
        </button>
      </div>
      <fieldset class="part files">
        <legend>{words.data}</legend>
        <div class="buttons">
          <button type="button" onClick={() => save(csvFile, "text/csv", dataText(study))}>
            {words.csv}
          </button>
          <button
            type="button"
            onClick={() => save(dictionaryFile, "application/json", dictionaryText(study, name(csvFile), now()))}
          >
            {words.dictionary}
          </button>
        </div>
        <p class="fine">{words.together(name(dictionaryFile))}</p>
      </fieldset>
      <PictureFiles figures={figuresOf(study.result, said)} result={study.result} said={said} title={title} app={app} />
    </>
  );
}

const csvFile = "answers.csv";
const dictionaryFile = "datapackage.json";

export const PrintButton = () => (
  <button type="button" class="next" onClick={() => window.print()}>
    {reader.exports.print}
  </button>
);

/** The counted answers as CSV, in the columns of the study's method. */
export function dataText({ record }: Pick<Opened, "record">): string {
  switch (record.plan.method) {
    case "triangle":
      return answersCsv(record, markedTriangles(record));
    case "paired-preference":
      return preferencesCsv(record, markedPreferences(record));
    case "line-scale":
      return marksCsv(record, markedLines(record), pointsOf);
  }
}

/** The dictionary of exactly the file that `dataText` writes. */
function dictionaryText(study: Opened, path: string, created: string): string {
  const { title } = study.record.plan;
  const descriptor = dataPackage({
    title: reader.exports.packageTitle(title),
    description: reader.exports.packageText(title),
    ...{ created, path },
    columns: readTable(dataText(study), path).columns,
    describe: columnText,
    key: study.result.family === "scale" ? ["tray", "product", "attribute", "moment"] : ["tray"],
  });
  return `${JSON.stringify(descriptor, null, 2)}\n`;
}

/** The result as JSON, every number in full precision. */
export const resultText = (result: Result): string => `${JSON.stringify(result, null, 2)}\n`;
