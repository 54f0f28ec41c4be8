import type { ProblemCode, ProblemDetails } from "../../model/problem.ts";

type BalanceCode = Extract<ProblemCode, `balance/${string}`>;

/** What can go wrong with a balance on the cable. */
export const balanceProblems: { [C in BalanceCode]: (details: ProblemDetails[C]) => string } = {
  "balance/not-offered": () =>
    "This browser cannot read a balance, or this page was not opened over https. Type the masses instead.",
  "balance/none-chosen": () =>
    "No balance was chosen. Connect again and pick its port in the browser’s window; if none is listed, check the cable.",
  "balance/not-allowed": () =>
    "The browser does not let this page use serial ports. Allow them for this page in the browser’s settings, or type the masses.",
  "balance/not-opened": (d) =>
    `The port could not be opened (${d.reason}). Close other windows and programs that use the balance, then connect again.`,
  "balance/lost": () =>
    "The connection to the balance was lost; a reading that was under way was not taken. Check cable and power, then connect again.",
  "balance/nothing-yet": () =>
    "Nothing has come from the balance. Press its print key, or set it to send by itself; if it does so already, check the cable and the speed (baud).",
  "balance/not-readable": () =>
    "What comes from the balance cannot be read. Check the speed (baud), the data bits and the parity: they must be as in the menu of the balance.",
};
