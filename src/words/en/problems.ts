import type { ProblemCode, ProblemDetails } from "../../model/problem.ts";

type Sentences = { [C in ProblemCode]: (details: ProblemDetails[C]) => string };

/** One sentence for each problem: what is wrong, where, and what to do. */
export const problems: Sentences = {
  "analysis/not-a-count": (d) => `${d.name} is ${d.value}; it must be a whole number from ${d.low} to ${d.high}.`,
  "analysis/not-a-share": (d) => `${d.name} is ${d.value}; it must lie between 0 and 1.`,
  "analysis/unknown-method": (d) => `There is no method “${d.method}”. Known methods: ${d.known}.`,
  "analysis/method-not-yet": (d) => `Cloche does not compute the method “${d.method}” yet. Use triangle.`,
  "analysis/not-a-distance": (d) => `${d.name} is ${d.value}; it must be a number of 0 or more.`,
  "analysis/tray-not-in-key": (d) =>
    `An answer names tray ${d.tray}, which the key does not hold. The result was not computed; check that key and answers belong to one study.`,
  "analysis/no-odd-sample": (d) =>
    `In the key, tray ${d.tray} does not hold three samples with exactly one odd. The result was not computed; the answers are untouched.`,
  "analysis/code-not-on-tray": (d) =>
    `The answer for tray ${d.tray} names code ${d.code}, which the key does not put on that tray. The result was not computed; the answers are untouched.`,
  "analysis/tray-counted-twice": (d) =>
    `Tray ${d.tray} has two counted answers. Settle which one stands; the result was not computed.`,
  "analysis/row-twice": (d) =>
    `Panelist ${d.panelist}, repeat ${d.repeat}, stands in the answers twice. Remove one of the two rows.`,

  "file/not-found": (d) => `There is no file ${d.path}. Check the name and the folder.`,
  "file/unreadable": (d) => `${d.path} could not be read: ${d.reason}.`,
  "file/not-json": (d) => `${d.path} is not valid JSON: ${d.reason}.`,
  "file/wrong-shape": (d) => `${d.path}: “${d.where}” must be ${d.expected}.`,
  "file/not-revealed": (d) =>
    `The study in ${d.path} has no result yet: its key was not opened when the file was written. Close the study, open the key, and export it again.`,
  "file/unwritable": (d) => `${d.path} could not be written: ${d.reason}. Choose another place.`,
  "csv/missing-column": (d) =>
    `${d.path}, line 1: the column “${d.column}” is missing (found: ${d.found}). Add it to the header line.`,
  "csv/bad-value": (d) => `${d.path}, line ${d.line}, column “${d.column}”: “${d.value}” must be ${d.expected}.`,
  "csv/malformed": (d) => `${d.path}, line ${d.line}: ${d.reason}.`,
  "csv/duplicate-row": (d) =>
    `${d.path}, line ${d.line}: ${d.what} stands on line ${d.first} already. Remove one of the two.`,
  "csv/no-rows": (d) => `${d.path} has a header but no answers.`,
  "cli/unknown-command": (d) => `There is no command “${d.command}”. Commands: ${d.known}.`,
  "cli/unknown-option": (d) => `${d.command} has no option “${d.option}”. See cloche ${d.command} --help.`,
  "cli/missing-option": (d) => `${d.command} needs ${d.option}. See cloche ${d.command} --help.`,
  "cli/bad-option": (d) => `${d.option} is “${d.value}”; it must be ${d.expected}.`,
  "cli/missing-argument": (d) => `${d.command} needs ${d.argument}. See cloche ${d.command} --help.`,
  "cli/unexpected-argument": (d) =>
    `${d.command} cannot do anything with “${d.argument}”. See cloche ${d.command} --help.`,

  "plan/not-ready": (d) => `The plan cannot be locked yet. Still missing: ${d.missing}.`,
  "plan/too-few-products": (d) =>
    `The plan has ${d.count === 1 ? "one product" : `${d.count} products`}; a triangle compares two. Add the other one.`,
  "plan/too-many-trays": (d) =>
    `${d.trays} trays need more distinct codes than the ${d.codes} there are for people who sit together. Plan more waves or allow more codes.`,
  "lock/insecure-origin": (d) =>
    `The plan cannot be locked on ${d.origin}: without a secure address this browser has no encryption, so the key could not be sealed. Open Cloche over https or on localhost; nothing you wrote is lost.`,
  "lock/already-locked": () => "This plan is locked already. Nothing was changed.",

  "key/wrong-passphrase": () =>
    "This passphrase does not open the key. Check each word against the sealed page; capital letters and extra spaces do not matter.",
  "key/damaged": () =>
    "The sealed key is damaged and cannot be opened. Use the sealed page, which holds the key as well.",
  "key/commitment-mismatch": (d) =>
    `The opened key does not match its seal: locked ${d.expected.slice(0, 12)}, found ${d.found.slice(0, 12)}. It was not used.`,
  "key/not-closed": () => "The key stays sealed until the study is closed. Close it first.",

  "tray/check-digit": (d) =>
    `${d.typed} is not a tray number: its check digit does not fit. Please type it again as it stands on the card.`,
  "tray/unknown": (d) => `Tray ${d.tray} does not belong to this tasting. Please ask for help.`,
  "tray/used-here": (d) => `Tray ${d.tray} has been answered on this tablet already. Please ask for help.`,
  "tray/used-elsewhere": (d) => `Tray ${d.tray} has been answered on another tablet already. Please ask for help.`,
  "tray/open-in-other-tab": (d) =>
    `Tray ${d.tray} is open in another window of this tablet. Go on there, or close that window.`,
  "tray/wrong-code": (d) =>
    `That cup should come later. Please touch the codes in the order they stand on the tray; next is ${d.expected.split("").join(" ")}.`,
  "tray/no-study": () => "No tasting is set up on this tablet yet. Please ask for help.",
  "tray/stopped-here": (d) =>
    `Tray ${d.tray} was stopped on this tablet and stays closed. Please ask for help; the lead may have a spare tray.`,
  "tray/new-wording": (d) =>
    `This tasting asks its question in words (“${d.wording}”) that this version of Cloche does not have. Reload with the network on to get the newer version; nothing is lost.`,

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

  "start/port-busy": (d) => `Port ${d.port} is in use. Stop the other program, or choose another port with --port.`,
  "start/cannot-listen": (d) =>
    `The server cannot listen on ${d.host}, port ${d.port} (${d.reason}). Choose another --host or --port.`,
  "start/folder-unwritable": (d) =>
    `The data folder ${d.path} cannot be written (${d.reason}). Choose another one with --data.`,
  "start/certificate": (d) => `The certificate or key ${d.path} cannot be used: ${d.reason}.`,
  "start/database-damaged": (d) =>
    `The database ${d.path} is damaged (${d.reason}). Nothing was changed. Restore the last backup, or move the file away: tablets send again what they hold.`,
  "start/not-built": (d) => `The built app is missing in ${d.path}. Run npm run build.`,
};
