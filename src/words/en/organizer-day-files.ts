import { plural } from "./reader-parts.ts";

/** Temperatures and times of the day from a CSV file, and to one. */
export const dayFilesWords = {
  heading: "Temperatures as a file",
  take: "Take temperatures from a CSV file",
  takeHint:
    "Columns wave, pot, what, celsius, held_seconds, rest_minutes, time and note. In “what” stands core, left-heat, left-cold, held-hot, held-cold or serving. A time like 11:32 is one of today; on another day write 2026-05-03T09:32:00Z. A line follows those above it of the same pot.",
  save: "Save temperatures as CSV",
  fileName: "temperatures.csv",
  unreadable: "The file cannot be read.",
  nothingTaken: "Nothing was taken from it.",
  took: (count: number, same: number, served: number): string =>
    [
      count === 0 && same > 0
        ? "All entries of the file are there already."
        : `Took ${plural(count, "entry", "entries")} from the file.${same > 0 ? ` ${same} were there already.` : ""}`,
      served > 0
        ? `${plural(served, "line says", "lines say")} when a tray was served: that is noted tray by tray, and was left out.`
        : "",
    ]
      .filter(Boolean)
      .join(" "),
  stopped: (done: number, of: number): string =>
    `${done} of ${of} were kept before that. Take the same file once more: what is there already is left as it is.`,
};
