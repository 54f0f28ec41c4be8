import type { Description, Row } from "../analysis/describe.ts";
import type { Result } from "../model/result.ts";
import { Slide, type SlideNumber, slideDrawingWidth } from "../ui/slide.tsx";
import { sizeOfSvg, svgText } from "../ui/svg-file.ts";
import { reader } from "../words/en/reader.ts";
import { type Figure, ofPart } from "./figures.tsx";

/** The rows a room has to see, by family; those that a result lacks are left out. */
const shown = {
  choice: ["right", "needed", "pValue", "discriminatorShare"],
  pair: ["first", "second", "none", "pValue"],
  kinds: ["unlike", "like", "pValue", "dPrime"],
  scale: ["people", "fValue", "pValue", "within"],
  rank: ["people", "page", "pagePValue", "friedman", "pValue"],
  portions: ["people", "gain-1", "gain-2", "difference", "pValue"],
} satisfies Record<Result["family"], string[]>;

/** Letters of the line at the top of a screen. */
const lineOfTitle = 100;

type Given = { figure: Figure; result: Result; said: Description; title: string; app: string };

/** A picture for a screen: what was asked and found, the drawing, and the numbers that matter. */
export function slideOf({ figure, result, said, title, app }: Given) {
  const drawing = figure.draw(slideDrawingWidth, undefined, 190);
  const { study } = result;
  // a picture of another property than the question's has no verdict, but a finding
  const at = result.family === "scale" ? attributeOf(figure) : 0;
  const text = said.attributes[at];
  const part = ofPart(figure.id) ? said.parts.find(({ id }) => id === figure.id) : undefined;
  const rows = part ? [] : at > 0 && text ? text.rows : said.rows;
  return (
    <Slide
      title={titled(
        title,
        part?.heading ?? (result.family === "scale" ? (text?.heading ?? "") : (study?.objective ?? "")),
      )}
      verdict={part?.sentences[0] ?? (at > 0 && text ? text.finding : said.verdict)}
      drawing={drawing}
      size={sizeOfSvg(svgText(drawing))}
      numbers={numbersOf(rows, shown[result.family])}
      foot={
        study
          ? reader.exports.footSealed(title, reader.grouped(study.commitment), app)
          : reader.exports.foot(title, app)
      }
    />
  );
}

/** The title with what was asked, as far as one line holds both. */
const titled = (title: string, asked: string): string => {
  const both = [title, asked].filter((part) => part !== "").join(" \u00b7 ");
  return [...both].length <= lineOfTitle ? both : title;
};

/** "pairs-2-1" belongs to the second attribute. */
const attributeOf = ({ id }: Figure): number => Math.max(0, Number(id.split("-")[1] ?? 1) - 1);

const numbersOf = (rows: readonly Row[], ids: readonly string[]): SlideNumber[] =>
  ids
    .flatMap((id) => rows.filter((row) => row.id === id))
    .map(({ label, value, behind }) => ({ label, value, behind }));
