import type { RefObject } from "preact";
import { markedTriangles } from "../analysis/marking.ts";
import { answersCsv } from "../archive/answers-csv.ts";
import type { Result } from "../model/result.ts";
import { saveText } from "../ui/save.ts";
import { reader } from "../words/en/reader.ts";
import type { Opened } from "./load.ts";
import { studyText } from "./study-text.ts";

type Props = { study: Opened; app: string; now: () => string; picture: RefObject<HTMLDivElement | null> };

/** Buttons that print the page and save what it was made from. */
export function Exports({ study, app, now, picture }: Props) {
  const words = reader.exports;
  const save = (what: string, type: string, text: string): void =>
    saveText(words.fileName(study.record.plan.title, what), type, text);
  return (
    <div class="buttons">
      <button type="button" class="next" onClick={() => window.print()}>
        {words.print}
      </button>
      <button type="button" onClick={() => save("answers.csv", "text/csv", dataText(study))}>
        {words.csv}
      </button>
      <button type="button" onClick={() => save("result.json", "application/json", resultText(study.result))}>
        {words.json}
      </button>
      <button type="button" onClick={() => save("study.json", "application/json", studyText(study, app, now()))}>
        {words.study}
      </button>
      {study.result.judgments > 0 && (
        <button type="button" onClick={() => save("chance.svg", "image/svg+xml", pictureText(picture.current))}>
          {words.picture}
        </button>
      )}
    </div>
  );
}

const dataText = ({ record }: Opened): string => answersCsv(record, markedTriangles(record));

/** The result as JSON, every number in full precision. */
export const resultText = (result: Result): string => `${JSON.stringify(result, null, 2)}\n`;

/** The drawing for paper as a file of its own. */
export function pictureText(holder: HTMLElement | null): string {
  const drawing = holder?.querySelector("svg");
  if (!drawing) return "";
  const copy = drawing.cloneNode(true) as SVGSVGElement;
  copy.removeAttribute("aria-hidden");
  copy.removeAttribute("class");
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  return `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(copy)}\n`;
}
