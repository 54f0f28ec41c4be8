/**
 * The closed table of everything that can go wrong for a person: code -> details.
 *
 * A code is words, never a number. The sentence for each code stands in `words/<language>/problems.ts`
 * (one per code, held by the compiler); the HTTP status in `statusOf`. Throw a Problem for a caller's
 * mistake; an outcome that data can produce is a field of the result instead.
 */
export type ProblemDetails = {
  // analysis
  "analysis/not-a-count": { name: string; value: string; low: number; high: number };
  "analysis/not-a-share": { name: string; value: string };
  "analysis/unknown-method": { method: string; known: string };
  "analysis/method-not-yet": { method: string };
  "analysis/not-a-distance": { name: string; value: string };
  "analysis/out-of-range": { name: string; value: string; low: string; high: string };
  "analysis/unknown-product": { product: string };
  "analysis/tray-not-in-key": { tray: number };
  "analysis/code-not-on-tray": { tray: number; code: string };
  "analysis/tray-counted-twice": { tray: number };
  "analysis/not-its-order": { tray: number; order: string };
  "analysis/answer-unknown": { tray: number; answer: string };
  "analysis/none-not-offered": { none: number };
  "analysis/mark-counted-twice": { tray: number; code: string };
  "analysis/unknown-attribute": { tray: number; code: string };
  "analysis/predicted-order": { predicted: string; products: string };
  "analysis/risk-out-of-range": { name: string; value: string; most: number };
  // files and terminal
  "file/not-found": { path: string };
  "file/unreadable": { path: string; reason: string };
  "file/not-json": { path: string; reason: string };
  "file/wrong-shape": { path: string; where: string; expected: string };
  "file/not-revealed": { path: string };
  "file/bad-event": { path: string; event: number; reason: string };
  "file/foreign-event": { path: string; event: number; study: string };
  "file/unwritable": { path: string; reason: string };
  "csv/missing-column": { path: string; column: string; found: string };
  /** No known name of a column stands in line 1. */
  "csv/no-header": { path: string; found: string };
  /** Neither a ledger nor told by a method; `method` is the one whose column stands there, "" where none does. */
  "csv/not-a-ledger": { path: string; found: string; method: string };
  "csv/bad-value": {
    path: string;
    line: number;
    column:
      | "panelist"
      | "repeat"
      | "correct"
      | "served"
      | "answer"
      | "choice"
      | "product"
      | "value"
      | "wave"
      | "pot"
      | "what"
      | "celsius"
      | "held_seconds"
      | "rest_minutes"
      | "time"
      | "note"
      | "probe"
      | "position"
      | "rank"
      | "scale"
      | "batch"
      | "step"
      | "grams"
      | "tare"
      | "drip"
      | "added"
      | "minutes"
      | "blotted"
      | "tray"
      | "code"
      | "stage"
      | "portion"
      | "after"
      | "grams_in"
      | "grams_out"
      | "cup"
      | "rinse"
      | "seconds"
      | "gain_percent";
    value: string;
  };
  "csv/third-product": { path: string; line: number; value: string; first: string; second: string };
  "csv/duplicate-value": { path: string; line: number; first: number };
  "csv/bad-step": { path: string; line: number; value: string; steps: number };
  "csv/scales-differ": { path: string; line: number; first: number };
  "csv/duplicate-rank": { path: string; line: number; first: number };
  "csv/column-twice": { path: string; line: number; column: string };
  "csv/cell-count": { path: string; line: number; columns: number; cells: number };
  "csv/open-quote": { path: string; line: number };
  "csv/stray-quote": { path: string; line: number };
  "csv/unreadable-line": { path: string; line: number };
  "csv/duplicate-row": { path: string; line: number; first: number; panelist: string; repeat: string };
  "csv/duplicate-weighing": { path: string; line: number; first: number };
  "csv/step-order": { path: string; line: number; batch: string; step: string; earlier: string; order: string };
  "csv/batch-differs": { path: string; line: number; column: string; batch: string };
  /** One name in two spellings that differ by case or spaces alone. */
  "csv/two-spellings": {
    path: string;
    line: number;
    first: number;
    column: "product" | "step";
    value: string;
    other: string;
  };
  "csv/unknown-process": { path: string; line: number; value: string; known: string };
  "csv/left-blank": { path: string; line: number; first: number; column: "rinse" };
  "csv/ledger-too-large": { path: string; line: number; column: string; most: number };
  /** A weighing that cannot be; `because` is a sentence. */
  "csv/unknown-product": { path: string; product: string; known: string };
  "csv/impossible-weighing": { path: string; line: number; because: string };
  "csv/no-rows": { path: string };
  "cli/unknown-command": { command: string; known: string };
  "cli/unknown-option": { option: string; command: string };
  "cli/missing-option": { option: string; command: string };
  "cli/bad-option": { option: string; value: string; expected: string };
  "cli/missing-argument": { argument: string; command: string };
  "cli/unexpected-argument": { argument: string; command: string };
  // planning and locking
  "plan/not-ready": { missing: string };
  "plan/too-few-products": { count: number; least: number };
  "plan/too-many-products": { count: number; most: number };
  "plan/people-in-waves": { planned: number; inWaves: number };
  "plan/sessions": { sessions: number; repeats: number };
  "plan/no-batch": { product: string; wave: number };
  "plan/too-many-trays": { trays: number; codes: number };
  "plan/too-many-batches": { batches: number; most: number };
  "lock/insecure-origin": { origin: string };
  "lock/already-locked": Record<string, never>;
  "lock/several-versions": Record<string, never>;
  // the key
  "key/wrong-passphrase": Record<string, never>;
  "key/damaged": Record<string, never>;
  "key/page-unreadable": { trays: number };
  "key/page-mistyped": Record<string, never>;
  "key/commitment-mismatch": { expected: string; found: string };
  "key/not-closed": Record<string, never>;
  // looks of a stopping rule
  "look/not-allowed": Record<string, never>;
  "look/too-early": { answered: number; least: number };
  "look/over": Record<string, never>;
  "look/records-missing": { missing: number };
  // trays on the tablet
  "tray/check-digit": { typed: string };
  "tray/unknown": { tray: number };
  "tray/used-here": { tray: number };
  "tray/used-elsewhere": { tray: number };
  "tray/open-in-other-tab": { tray: number };
  "tray/wrong-code": { tapped: string; expected: string };
  "tray/no-study": Record<string, never>;
  "tray/study-closed": Record<string, never>;
  "tray/stopped-here": { tray: number };
  "tray/new-wording": { wording: string };
  "tray/no-card-check": { lengthMm: number };
  "tray/zoomed": Record<string, never>;
  /** Millimeters that a line may have on this screen as it is held now, and when it is turned. */
  "tray/line-too-long": { lengthMm: number; roomMm: number; turnedMm: number };
  // device storage
  "device/full": Record<string, never>;
  "device/not-saved": { reason: string };
  "device/no-storage": { reason: string };
  "device/blocked": Record<string, never>;
  "device/newer-version": Record<string, never>;
  "device/emptied": { known: number; found: number };
  // a balance on the cable
  "balance/not-offered": Record<string, never>;
  "balance/none-chosen": Record<string, never>;
  "balance/not-allowed": Record<string, never>;
  "balance/not-opened": { reason: string };
  "balance/lost": Record<string, never>;
  "balance/nothing-yet": Record<string, never>;
  "balance/not-readable": Record<string, never>;
  // server and network
  "server/unreachable": Record<string, never>;
  "server/not-cloche": { reason: string };
  "server/busy": Record<string, never>;
  "server/storage": Record<string, never>;
  "server/internal": { errorId: string };
  "server/unknown-problem": { code: string };
  "request/invalid": { where: string; expected: string };
  "request/too-large": { limit: string };
  "request/too-many": { seconds: number };
  "request/cross-site": Record<string, never>;
  "access/not-enrolled": Record<string, never>;
  "access/not-allowed": Record<string, never>;
  "access/not-found": Record<string, never>;
  "enroll/bad-code": Record<string, never>;
  "enroll/locked-out": { seconds: number };
  // starting the server
  "start/port-busy": { port: number };
  "start/cannot-listen": { host: string; port: number; reason: string };
  "start/folder-unwritable": { path: string; reason: string };
  "start/certificate": { path: string; reason: string };
  "start/database-damaged": { path: string; reason: string };
  "start/not-built": { path: string };
  // the demo
  "demo/already-there": { title: string };
  /** Answers of a rehearsal that went through a server, and how many of them came back. */
  "file/rehearsal-not-whole": { sent: number; back: number };
  "demo/folder-not-empty": { path: string };
};

export type ProblemCode = keyof ProblemDetails;

/** A problem as data: what crosses HTTP and reaches a screen. */
export type ProblemData = { [C in ProblemCode]: { code: C; details: ProblemDetails[C] } }[ProblemCode];

/** Thrown for a caller's mistake or an environment that fails; `problem` says which, and with which values. */
export class Problem extends Error {
  readonly problem: ProblemData;
  constructor(problem: ProblemData) {
    super(`${problem.code} ${JSON.stringify(problem.details)}`);
    this.name = "Problem";
    this.problem = problem;
  }
}

/** Makes a Problem; details are checked against the code by the compiler. */
export function problem<C extends ProblemCode>(
  code: C,
  ...details: Record<string, never> extends ProblemDetails[C] ? [] : [ProblemDetails[C]]
): Problem {
  return new Problem({ code, details: details[0] ?? {} } as unknown as ProblemData);
}
