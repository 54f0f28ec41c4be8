import { useState } from "preact/hooks";
import type { Description } from "../analysis/describe.ts";
import type { Result } from "../model/result.ts";
import { saveBlob, saveText } from "../ui/save.ts";
import { pngOf, svgText } from "../ui/svg-file.ts";
import { reader } from "../words/en/reader.ts";
import { onPaper } from "./figure-view.tsx";
import type { Figure } from "./figures.tsx";
import { slideOf } from "./slide-of.tsx";

type Props = {
  figures: readonly Figure[];
  result: Result;
  said: Description;
  /** Of the study, or of the file; part of every file's name. */
  title: string;
  app: string;
};

/** A page's picture as PNG has three pixels for each of the drawing; a screen's has its own number. */
const paperTimes = 3;

/** Buttons that save a picture as SVG and PNG, for a page and for a screen. */
export function PictureFiles({ figures, result, said, title, app }: Props) {
  const words = reader.exports;
  const [chosen, setChosen] = useState(figures[0]?.id ?? "");
  const [failed, setFailed] = useState(false);
  const figure = figures.find(({ id }) => id === chosen) ?? figures[0];
  if (!figure) return null;
  const name = (what: string): string => reader.exports.fileName(title, `${figure.id}${what}`);
  const page = (): string => svgText(figure.draw(onPaper.width, undefined, onPaper.stack));
  const screen = (): string => svgText(slideOf({ figure, result, said, title, app }));

  async function savePng(file: string, text: string, times: number): Promise<void> {
    const png = await pngOf(text, times);
    setFailed(png === null);
    if (png) saveBlob(file, png);
  }

  return (
    <fieldset class="part files">
      <legend>{words.pictures}</legend>
      {figures.length > 1 && (
        <label>
          <span class="unseen">{words.which}</span>
          <select value={figure.id} onChange={(event) => setChosen(event.currentTarget.value)}>
            {figures.map(({ id, name: shown }) => (
              <option key={id} value={id}>
                {shown}
              </option>
            ))}
          </select>
        </label>
      )}
      <div class="buttons">
        <button type="button" onClick={() => saveText(name(".svg"), "image/svg+xml", page())}>
          {words.svg}
        </button>
        <button type="button" onClick={() => void savePng(name(".png"), page(), paperTimes)}>
          {words.png}
        </button>
        <button type="button" onClick={() => saveText(name("-screen.svg"), "image/svg+xml", screen())}>
          {words.screenSvg}
        </button>
        <button type="button" onClick={() => void savePng(name("-screen.png"), screen(), 1)}>
          {words.screenPng}
        </button>
      </div>
      {failed && (
        <p role="alert" class="problem">
          {words.noPng}
        </p>
      )}
    </fieldset>
  );
}
