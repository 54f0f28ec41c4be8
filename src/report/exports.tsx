import type { Description } from "../analysis/describe.ts";
import type { Result } from "../model/result.ts";
import { saveText } from "../ui/save.ts";
import { reader } from "../words/en/reader.ts";
import { answersText, dictionaryText } from "./answer-file.ts";
import { allFigures } from "./figures.tsx";
import type { Opened } from "./opened-study.ts";
import { PictureFiles } from "./picture-files.tsx";
import { studyText } from "./study-text.ts";
import { temperaturesDictionary, temperaturesText } from "./temperature-file.ts";

type Props = { study: Opened; lead: boolean; said: Description; app: string; now: () => string };

/** Buttons that print the page and save what it was made from. */
export function Exports({ study, lead, said, app, now }: Props) {
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
          <button type="button" onClick={() => save(csvFile, "text/csv", answersText(study, lead))}>
            {words.csv}
          </button>
          <button
            type="button"
            onClick={() => save(dictionaryFile, "application/json", dictionaryText(study, lead, name(csvFile), now()))}
          >
            {words.dictionary}
          </button>
        </div>
        <p class="fine">{words.together(name(dictionaryFile))}</p>
        {study.record.temperatures.length > 0 && (
          <div class="buttons">
            <button type="button" onClick={() => save(temperatureFile, "text/csv", temperaturesText(study, lead))}>
              {words.temperatures}
            </button>
            <button
              type="button"
              onClick={() =>
                save(
                  "temperatures-datapackage.json",
                  "application/json",
                  temperaturesDictionary(study, lead, name(temperatureFile), now()),
                )
              }
            >
              {words.temperatureDictionary}
            </button>
          </div>
        )}
      </fieldset>
      <PictureFiles
        figures={allFigures(study.result, said, lead)}
        result={study.result}
        said={said}
        title={title}
        app={app}
      />
    </>
  );
}

const temperatureFile = "temperatures.csv";
const csvFile = "answers.csv";
const dictionaryFile = "datapackage.json";

export const PrintButton = () => (
  <button type="button" class="next" onClick={() => window.print()}>
    {reader.exports.print}
  </button>
);

/** The result as JSON, every number in full precision. */
export const resultText = (result: Result): string => `${JSON.stringify(result, null, 2)}\n`;
