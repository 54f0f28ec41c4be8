import type { ProblemCode, ProblemDetails } from "../../model/problem.ts";

/** What can go wrong for a person at a tablet: its trays, its storage, and the server it talks to. */
export type DeviceProblemCode = Extract<
  ProblemCode,
  `${"tray" | "device" | "server" | "request" | "access" | "enroll"}/${string}`
>;
type Sentences = { [C in DeviceProblemCode]: (details: ProblemDetails[C]) => string };

/**
 * One sentence for each of these problems: what is wrong, where, and what to do. They are all that a tablet carries:
 * sentences about plans, keys and results stay with those who have them.
 */
export const deviceProblems: Sentences = {
  "tray/check-digit": (d) =>
    `${d.typed} is not a tray number: its check digit does not fit. Please type it again as it stands on the card.`,
  "tray/unknown": (d) => `Tray ${d.tray} does not belong to this tasting. Please ask for help.`,
  "tray/used-here": (d) => `Tray ${d.tray} has been answered on this tablet already. Please ask for help.`,
  "tray/used-elsewhere": (d) => `Tray ${d.tray} has been answered on another tablet already. Please ask for help.`,
  "tray/open-in-other-tab": (d) =>
    `Tray ${d.tray} is open in another window of this tablet. Go on there, or close that window.`,
  "tray/wrong-code": (d) =>
    `That cup should come later. Please touch the codes in the order they stand on the tray; next is ${d.expected.split("").join(" ")}.`,
  "tray/study-closed": () => "This tasting is closed. Please ask the lead; nothing was opened.",
  "tray/no-study": () => "No tasting is set up on this tablet yet. Please ask for help.",
  "tray/stopped-here": (d) =>
    `Tray ${d.tray} was stopped on this tablet and stays closed. Please ask for help; the lead may have a spare tray.`,
  "tray/new-wording": (d) =>
    `This tasting asks its question in words (“${d.wording}”) that this version of Cloche does not have. Reload with the network on to get the newer version; nothing is lost.`,
  "tray/no-card-check": (d) =>
    `This tasting is marked on a line of ${d.lengthMm} mm, and this tablet has not been measured yet. Please call the staff: “Check this tablet” below does it with a bank card.`,
  "tray/zoomed": () =>
    "This page is zoomed differently than when this tablet was measured, so its line would have another length. Please call the staff: set the zoom back, or measure anew under “Check this tablet”.",
  "tray/line-too-long": (d) =>
    d.turnedMm >= d.lengthMm
      ? `This tasting is marked on a line of ${d.lengthMm} mm; held like this, the screen shows ${d.roomMm} mm. Turn the tablet on its side, then open the tray again.`
      : `This tasting is marked on a line of ${d.lengthMm} mm, and this screen shows at most ${d.turnedMm} mm. Please take the tray to another tablet.`,

  "device/full": () =>
    "Not saved: this tablet has no room left. Your answer is still on the screen. Free some space, then press the button again.",
  "device/not-saved": (d) =>
    `Not saved (${d.reason}). Your answer is still on the screen. Press the button again, or ask for help.`,
  "device/no-storage": (d) =>
    `This browser does not let Cloche keep answers (${d.reason}), so no tray can be opened here. Leave private mode or use another browser.`,
  "device/blocked": () =>
    "An older version of Cloche is open in another window of this device. Close that window to go on; nothing is lost.",
  "device/newer-version": () =>
    "The answers on this device were kept by a newer version of Cloche. Reload with the network on to get that version; nothing is lost.",
  "device/emptied": (d) =>
    `This tablet held ${d.known} records and now holds ${d.found}: its storage was cleared. Call the lead before going on.`,

  "server/unreachable": () =>
    "The server cannot be reached right now. What you did is kept on this device and will be sent later.",
  "server/not-cloche": (d) =>
    `Something other than Cloche answered (${d.reason}). Check the network; what you did is kept on this device.`,
  "server/busy": () => "The server is busy. It will be tried again by itself.",
  "server/storage": () =>
    "The server could not store this: its disk is full or locked. It will be tried again; what you did is kept on this device.",
  "server/unknown-problem": (d) =>
    `The server reported “${d.code}”, which this version of Cloche does not know. Reload with the network on to get the newer one; nothing is lost.`,
  "server/internal": (d) =>
    `Something went wrong on the server. Nothing was lost. Error ${d.errorId} in its log tells more.`,
  "request/invalid": (d) => `The request was not understood: “${d.where}” must be ${d.expected}.`,
  "request/too-large": (d) => `The request is larger than ${d.limit}.`,
  "request/too-many": (d) => `Too many requests. Wait ${d.seconds} seconds and try again.`,
  "request/cross-site": () => "This request came from another site and was refused.",
  "access/not-enrolled": () =>
    "This device is not enrolled, or its enrollment was withdrawn. Enroll it with a new code; what it holds is kept.",
  "access/not-allowed": () => "This device is not allowed to do that.",
  "access/not-found": () => "There is nothing at this address.",
  "enroll/bad-code": () =>
    "This code does not work: it was mistyped, used already, or is older than ten minutes. Ask the lead for a new one.",
  "enroll/locked-out": (d) => `Too many wrong codes. Wait ${d.seconds} seconds, then try again.`,
};
