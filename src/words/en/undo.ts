import { differenceWords } from "./differences.ts";

/** Words of taking back changes, and of doing them again. */
const clip = (text: string): string => {
  const plain = text.replace(/\s+/g, " ").trim();
  return plain.length > 32 ? `${plain.slice(0, 31).trimEnd()}\u2026` : plain;
};

/** Of an entry that came or went there is nothing to say but that. */
function changed(before: string, after: string): string {
  if (before === differenceWords.notThere) return " added";
  if (after === differenceWords.notThere) return " removed";
  return `: ${clip(before)} \u2192 ${clip(after)}`;
}

export const undoWords = {
  /** "people: 24 → 30", or "wave 2 added", with how many other fields changed along. */
  change: (label: string, before: string, after: string, more: number) =>
    `${label}${changed(before, after)}${more > 0 ? `, and ${more}\u00a0more` : ""}`,
  /** A sentence that was said of the change when it was made. */
  said: (sentence: string) => sentence.replace(/\.$/, ""),
  undo: (what: string) => `Undo: ${what}`,
  redo: (what: string) => `Redo: ${what}`,
  undone: (what: string) => `Taken back: ${what}.`,
  redone: (what: string) => `Done again: ${what}.`,
  bar: "Last changes",
};
