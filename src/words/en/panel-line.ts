const tenths = ["", "one tenth", "two tenths", "three tenths", "four tenths", "half", "six tenths", "seven tenths"];
const share = (count: number): string => tenths[count] ?? (count === 8 ? "eight tenths" : "nine tenths");

/** Everything a panelist reads about the line of a line scale. No number of it is ever shown. */
export const panelLine = {
  line: {
    none: "no mark yet",
    how: "Choose a place on the line: press an arrow key, a digit key, Home or End, or touch the line.",
    removed: "The mark is taken away.",
    ends: (low: string, high: string) => `The line runs from ${low} to ${high}.`,
    place: (count: number, low: string, high: string) => {
      if (count <= 0) return `at the end: ${low}`;
      if (count >= 10) return `at the end: ${high}`;
      return `about ${share(count)} of the way from ${low} to ${high}`;
    },
    left: "a little left",
    right: "a little right",
  },
};
export type PanelLineWords = typeof panelLine;
