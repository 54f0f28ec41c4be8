/**
 * Tray numbers as people type them: the number and one check digit, written "17-4".
 *
 * The digit is Damm's (H. M. Damm 2004, totally anti-symmetric quasigroup of order 10; table from memory, its
 * two defining properties are tested exhaustively): it catches every single wrong digit and every swap of neighbors.
 */
const table = [
  [0, 3, 1, 7, 5, 9, 8, 6, 4, 2],
  [7, 0, 9, 2, 1, 5, 4, 8, 6, 3],
  [4, 2, 0, 6, 8, 7, 1, 3, 5, 9],
  [1, 7, 5, 0, 9, 8, 3, 4, 2, 6],
  [6, 1, 2, 3, 0, 4, 5, 9, 7, 8],
  [3, 6, 7, 4, 2, 0, 9, 5, 8, 1],
  [5, 8, 6, 9, 7, 2, 0, 1, 3, 4],
  [8, 9, 4, 5, 3, 6, 2, 0, 1, 7],
  [9, 4, 3, 8, 6, 1, 7, 2, 0, 5],
  [2, 5, 8, 1, 4, 3, 6, 7, 9, 0],
] as const;

/** Check digit, 0 to 9, of a whole tray number from 1 up. */
export function checkDigit(tray: number): number {
  let state = 0;
  for (const digit of String(tray)) state = table[state]?.[Number(digit)] ?? 0;
  return state;
}

/** "17-4": the tray number with its check digit, as printed on the card. */
export const trayLabel = (tray: number): string => `${tray}-${checkDigit(tray)}`;

/**
 * Reads what somebody typed: "17-4", "174", "17 4".
 * Returns the tray number, or null when it is not a number with a right check digit.
 */
export function readTrayLabel(typed: string): number | null {
  const digits = typed.replace(/[\s\-–]/g, "");
  if (!/^[1-9]\d{1,4}$/.test(digits)) return null;
  const tray = Number(digits.slice(0, -1));
  return checkDigit(tray) === Number(digits.slice(-1)) ? tray : null;
}
