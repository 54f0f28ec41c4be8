/**
 * What all pictures share. Colors stand as attributes in the drawing, not in a style sheet, so that a saved file is
 * whole; each differs from the next in lightness, so that gray paper shows the same.
 */
export const ink = "#1f2328";
export const soft = "#575d64";
export const dot = "#868c93";
/** The observed value, and nothing else. */
export const accent = "#5b2a86";
export const paper = "#fff";
export const font = 'system-ui, "Noto Sans", Arial, sans-serif';

/** Coordinates to a hundredth of a pixel. */
export const round = (value: number): number => Math.round(value * 100) / 100;

/** Pixels that a text may take, by its letters: on the safe side for every system font. */
export const textWidth = (text: string, size: number): number => [...text].length * size * 0.56;

/** A text in lines of at most so many letters, broken at spaces; what is longer than `most` lines ends in an ellipsis. */
export function wrapped(text: string, letters: number, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/ +/)) {
    const last = lines.at(-1);
    if (last !== undefined && [...last].length + 1 + [...word].length <= letters)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  const cut = lines.map((line) => shortened(line, letters));
  if (cut.length <= most) return cut;
  return [...cut.slice(0, most - 1), shortened(cut.slice(most - 1).join(" "), letters)];
}

/** A text of at most so many letters; a longer one ends in an ellipsis. */
export const shortened = (text: string, letters: number): string =>
  [...text].length <= letters
    ? text
    : `${[...text]
        .slice(0, Math.max(1, letters - 1))
        .join("")
        .trimEnd()}\u2026`;
