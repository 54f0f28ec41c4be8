import type { ProblemCode, ProblemDetails } from "../../model/problem.ts";
import { balanceProblems } from "./balance-problems.ts";
import { deviceProblems } from "./device-problems.ts";

type Sentences = { [C in ProblemCode]: (details: ProblemDetails[C]) => string };

/** What a column of a CSV with answers takes. */
const columnValues: Record<ProblemDetails["csv/bad-value"]["column"], string> = {
  panelist: "a name or number",
  repeat: "a whole number from 1",
  correct: "1 (right) or 0 (wrong)",
  served: "same or different in a same-different test, A or not A in an A-not-A test",
  answer: "same or different in a same-different test, A or not A in an A-not-A test",
  choice: "the name of a product, or none",
  product: "the name of a product",
  value: "a number with a decimal point, or left empty where there was no answer",
  wave: "the number of a wave of this study",
  pot: "the label of a pot of that wave, like KT",
  what: "core, left-heat, held-hot, held-cold or serving",
  celsius: "degrees Celsius like 74.5",
  held_seconds: "whole seconds, or left empty",
  rest_minutes: "whole minutes, or left empty",
  time: "a time of the day like 11:32, or with its day like 2026-05-03T09:32:00Z",
  note: "shorter: 300 characters with its time at most",
  probe: "shorter: 300 characters at most",
  scale: "line, steps 2 to steps 11, liking 2 to liking 11, just-right 3 or just-right 5; or left empty for a line",
  position: "the place served, a whole number from 1, or left empty where nobody knows it",
  batch: "the name or number of a batch",
  step: "the name of a step, like raw or cooked",
  grams:
    "a mass in grams as the balance showed it, like 1497.6; left empty, with everything else of the weighing, where it was not weighed",
  tare: "the mass of the dish in grams, like 22.4, or left empty where the balance was set to zero with it",
  drip: "the caught juice in grams, like 21.0, or left empty where none was caught",
  added: "the added liquid in grams, like 50.0, or left empty where none was added",
  minutes: "minutes after the heat, like 5 or 2.5, or left empty where nobody knows",
  blotted: "yes, no, or left empty where nobody knows",
  tray: "the number of a tray of this study, like 17, or with its check digit, like 17-4",
  code: "a code of that tray, like 482",
  stage: "cup, portion or after",
  portion: "the mass of the portion in grams, like 5.02, or left empty where it was not weighed",
  after: "the mass of the closed cup in grams, like 18.71, or left empty where it was not weighed",
  grams_in: "the mass of the portion in grams, above 0, like 5.02",
  grams_out: "a mass in grams as the balance showed it, like 6.31",
  cup: "the mass of the empty cup in grams, like 12.40",
  rinse: "the mass of the rinse water in grams, like 10.0",
  seconds: "the seconds that were chewed, like 15, or left empty where nobody knows",
  gain_percent: "the gain in percent of the portion, like 24.8 or -3.1",
  rank: "a place in the order, from 1 for the least to the number of products, or left empty where there was none",
};

/** One sentence for each problem: what is wrong, where, and what to do. */
export const problems: Sentences = {
  "analysis/not-a-count": (d) => `${d.name} is ${d.value}; it must be a whole number from ${d.low} to ${d.high}.`,
  "analysis/not-a-share": (d) => `${d.name} is ${d.value}; it must lie between 0 and 1.`,
  "analysis/unknown-method": (d) => `There is no method “${d.method}”. Known methods: ${d.known}.`,
  "analysis/method-not-yet": (d) =>
    `This is not computed for the method “${d.method}”. Use one of the choice tests, a paired preference, a ranking or a rating scale; portions that were chewed and weighed go through cloche result.`,
  "analysis/not-a-distance": (d) => `${d.name} is ${d.value}; it must be a number of 0 or more.`,
  "analysis/out-of-range": (d) => `${d.name} is ${d.value}; it must be a number from ${d.low} to ${d.high}.`,
  "analysis/unknown-product": (d) =>
    `An answer names the product “${d.product}”, which the plan does not have. The result was not computed; check that the name is spelled as in the plan.`,
  "analysis/tray-not-in-key": (d) =>
    `An answer names tray ${d.tray}, which the key does not hold. The result was not computed; check that key and answers belong to one study.`,
  "analysis/code-not-on-tray": (d) =>
    `The answer for tray ${d.tray} names code ${d.code}, which the key does not put on that tray. The result was not computed; the answers are untouched.`,
  "analysis/tray-counted-twice": (d) =>
    `Tray ${d.tray} has two counted answers. Settle which one stands; the result was not computed.`,
  "analysis/not-its-order": (d) =>
    `In the key, tray ${d.tray} holds its samples in the order “${d.order}”, which this method does not serve. The result was not computed; check that plan and key belong to one study. The answers are untouched.`,
  "analysis/answer-unknown": (d) =>
    `The answer for tray ${d.tray} is “${d.answer}”, which the ballot of this method does not offer. The result was not computed; the answers are untouched.`,
  "analysis/none-not-offered": (d) =>
    `${d.none === 1 ? "One answer is" : `${d.none} answers are`} “no preference”, which was not offered. Say by which rule it counts: drop, split or report.`,
  "analysis/mark-counted-twice": (d) =>
    `Tray ${d.tray} has two counted marks of one kind for code ${d.code}. The result was not computed; the answers are untouched.`,
  "analysis/unknown-attribute": (d) =>
    `A mark for code ${d.code} of tray ${d.tray} is of a property that the plan does not have. The result was not computed; check that key and answers belong to one study.`,
  "analysis/predicted-order": (d) =>
    `The order expected is “${d.predicted}”; it must name each of the products once: ${d.products}.`,
  "analysis/risk-out-of-range": (d) => `${d.name} is ${d.value}; it must be more than 0 and at most ${d.most}.`,

  "file/not-found": (d) => `There is no file ${d.path}. Check the name and the folder.`,
  "file/unreadable": (d) => `${d.path} could not be read: ${d.reason}.`,
  "file/not-json": (d) => `${d.path} is not valid JSON: ${d.reason}.`,
  "file/wrong-shape": (d) => `${d.path}: “${d.where}” must be ${d.expected}.`,
  "file/not-revealed": (d) =>
    `The study in ${d.path} has no result yet: its key was not opened when the file was written. Close the study, open the key, and export it again.`,
  "file/bad-event": (d) =>
    `${d.path}: record ${d.event} cannot be read (${d.reason}). The file was changed or cut; export the study again.`,
  "file/foreign-event": (d) =>
    `${d.path}: record ${d.event} is not one of the study ${d.study}. The file was changed; export the study again.`,
  "file/unwritable": (d) => `${d.path} could not be written: ${d.reason}. Choose another place.`,
  "csv/missing-column": (d) =>
    `${d.path}, line 1: the column “${d.column}” is missing (found: ${d.found}). Add it to the header line.`,
  "csv/no-header": (d) =>
    `${d.path}, line 1: the header line is missing; no known name of a column stands there (found: ${d.found}). Put the names of the columns above the first line of values.`,
  "csv/not-a-ledger": (d) =>
    `${d.path}, line 1 has the columns ${d.found}. A weighing ledger begins with batch,product,step,grams; anything else needs --method${d.method === "" ? "" : `, here --method ${d.method}`}. See cloche result --help.`,
  "csv/bad-value": (d) =>
    `${d.path}, line ${d.line}, column “${d.column}”: “${d.value}” must be ${columnValues[d.column]}.`,
  "csv/column-twice": (d) => `${d.path}, line ${d.line}: two columns are named “${d.column}”. Rename or remove one.`,
  "csv/cell-count": (d) =>
    `${d.path}, line ${d.line}: the header has ${d.columns} columns, this line has ${d.cells}. Put the line right.`,
  "csv/open-quote": (d) =>
    `${d.path}, line ${d.line}: a cell begins with a quote mark and does not end with one. Add or remove one.`,
  "csv/stray-quote": (d) => `${d.path}, line ${d.line}: a quote mark stands inside a quoted cell. Write it twice.`,
  "csv/unreadable-line": (d) => `${d.path}, line ${d.line}: the line cannot be read. Save the table as CSV anew.`,
  "csv/duplicate-row": (d) =>
    `${d.path}, line ${d.line}: panelist “${d.panelist}”, repeat ${d.repeat} stands on line ${d.first} already. Remove one of the two.`,
  "csv/third-product": (d) =>
    `${d.path}, line ${d.line}, column “choice”: “${d.value}” would be a third product beside “${d.first}” and “${d.second}”. A preference is between two; check the spelling.`,
  "csv/bad-step": (d) =>
    `${d.path}, line ${d.line}, column “value”: “${d.value}” must be a step, a whole number from 1 to ${d.steps}, or left empty where there was no answer.`,
  "csv/scales-differ": (d) =>
    `${d.path}, line ${d.line}, column “scale”: this attribute has another scale on line ${d.first}. Give it one, or name two attributes.`,
  "csv/duplicate-rank": (d) =>
    `${d.path}, line ${d.line}: this panelist and product stand on line ${d.first} already. Each panelist ranks a product once; remove one of the two.`,
  "csv/duplicate-value": (d) =>
    `${d.path}, line ${d.line}: this panelist, product, attribute, moment and repeat stand on line ${d.first} already. Remove one of the two, or number the repeats.`,
  "csv/duplicate-weighing": (d) =>
    `${d.path}, line ${d.line}: this batch was weighed at this step on line ${d.first} already. Remove one of the two, or name another step.`,
  "csv/step-order": (d) =>
    `${d.path}, line ${d.line}: batch “${d.batch}” has “${d.step}” below “${d.earlier}”. The lines of a batch stand in the order of the steps, which is that of their first lines in the file: ${d.order}. Move the line; where a step was not weighed, leave its grams empty.`,
  "csv/batch-differs": (d) =>
    `${d.path}, line ${d.line}, column “${d.column}”: batch “${d.batch}” has another entry on a line above. Make the two agree, or leave one empty.`,
  "csv/two-spellings": (d) =>
    `${d.path}, line ${d.line}, column “${d.column}”: “${d.value}” is spelled “${d.other}” on line ${d.first}. If the two are one ${d.column}, spell them alike; if they are two, give them names that differ by more than case and spaces.`,
  "csv/unknown-process": (d) =>
    `${d.path}, line ${d.line}, column “product”: “${d.value}” is no process of this claim. Its processes are ${d.known}; write one of these names.`,
  "csv/left-blank": (d) =>
    `${d.path}, line ${d.line}, column “${d.column}”: left empty, though line ${d.first} has one. Write 0 where no water was used.`,
  "csv/ledger-too-large": (d) =>
    `${d.path}, line ${d.line}, column “${d.column}”: more than ${d.most} of them. Split the file, or check the spelling.`,
  "csv/unknown-product": (d) =>
    `${d.path} has no product “${d.product}”. Type the inert portion as the file names it (${d.known}), or leave it empty.`,
  "csv/impossible-weighing": (d) => `${d.path}, line ${d.line}: ${d.because}`,
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
    `The plan has ${d.count === 1 ? "one product" : `${d.count} products`}; its method compares at least ${d.least}. Add what is missing.`,
  "plan/too-many-products": (d) =>
    `The plan has ${d.count} products; its method compares at most ${d.most} in a sitting. Take the others out.`,
  "plan/sessions": (d) =>
    `Everybody has one tray in each session: ${d.repeats} trays a person take ${d.repeats} sessions, and the waves name ${d.sessions}. Give waves of one session the same name.`,
  "plan/people-in-waves": (d) =>
    `The waves serve ${d.inWaves}, the plan says ${d.planned}. Make the two agree, with at least one person.`,
  "plan/no-batch": (d) => `No batch of “${d.product}” is named for wave ${d.wave}. Name at least one.`,
  "plan/too-many-trays": (d) =>
    `${d.trays} trays need more distinct codes than the ${d.codes} there are for people who sit together. Plan more waves or allow more codes.`,
  "plan/too-many-batches": (d) =>
    `The waves name ${d.batches} batches, and there are labels for ${d.most}. Let batches serve several waves, or plan fewer waves.`,
  "lock/insecure-origin": (d) =>
    `The plan cannot be locked on ${d.origin}: without a secure address this browser has no encryption, so the key could not be sealed. Open Cloche over https or on localhost; nothing you wrote is lost.`,
  "lock/already-locked": () => "This plan is locked already. Nothing was changed.",
  "lock/several-versions": () =>
    "This plan was changed on another device meanwhile. Nothing was locked. Go back to the plan and say which version counts.",

  "key/wrong-passphrase": () =>
    "This passphrase does not open the key. Check each word against what you wrote down; capital letters and extra spaces do not matter.",
  "key/page-unreadable": (d) =>
    `This is not the whole text of this study’s sealed page. It begins with CLOCHEKEY and has one group for each of its ${d.trays} trays. Type or scan all of it.`,
  "key/page-mistyped": () =>
    "The text can be read, but it does not give the key that was locked: somewhere a letter or digit differs. Compare it with the page group by group. Nothing was opened.",
  "key/damaged": () =>
    "The sealed key is damaged and cannot be opened. Use the sealed page, which holds the key as well.",
  "key/commitment-mismatch": (d) =>
    `The opened key does not match its seal: locked ${d.expected.slice(0, 12)}, found ${d.found.slice(0, 12)}. It was not used.`,
  "look/not-allowed": () =>
    "The plan locked for this study does not allow this look, or another lead took it first. No answer was given out.",
  "look/too-early": (d) =>
    `${d.answered === 1 ? "One answer is" : `${d.answered} answers are`} here; this look takes ${d.least}. Wait until as many have come in. No answer was given out.`,
  "look/over": () => "This look is over: it is done, or the study is closed. No answer was given out.",
  "look/records-missing": (d) =>
    `The server lacks ${d.missing === 1 ? "one record" : `${d.missing} records`} that this look saw. Let every tablet send what it holds, then finish the look.`,
  "key/not-closed": () => "The key stays sealed until the study is closed. Close it first.",

  ...deviceProblems,
  ...balanceProblems,

  "start/port-busy": (d) => `Port ${d.port} is in use. Stop the other program, or choose another port with --port.`,
  "start/cannot-listen": (d) =>
    `The server cannot listen on ${d.host}, port ${d.port} (${d.reason}). Choose another --host or --port.`,
  "start/folder-unwritable": (d) =>
    `The data folder ${d.path} cannot be written (${d.reason}). Choose another one with --data.`,
  "start/certificate": (d) => `The certificate or key ${d.path} cannot be used: ${d.reason}.`,
  "start/database-damaged": (d) =>
    `The database ${d.path} is damaged (${d.reason}). Nothing was changed. Restore the last backup, or move the file away: tablets send again what they hold.`,
  "start/not-built": (d) => `The built app is missing in ${d.path}. Run npm run build.`,
  "file/rehearsal-not-whole": (d) =>
    `${d.sent} answers of the rehearsal went to the server and ${d.back} came back, or they came back changed. Do not use this server for a study before this is understood.`,
  "demo/already-there": (d) =>
    `The demo is here already: “${d.title}” belongs to it. To begin it anew, start Cloche with another data folder.`,
  "demo/folder-not-empty": (d) =>
    `${d.path} is not empty. The demo wants a folder of its own, so that it cannot mix with a kitchen's studies: name a new one, or leave the option out.`,
};
