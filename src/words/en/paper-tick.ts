/** The box at the head of a ballot on paper by which somebody agrees: as it is printed, and as it is typed in. */
export const takesPart = "I know what it is about, and take part.";
