import type { FactOf } from "../log/fact.ts";
import type { Body, Paper } from "../model/event.ts";
import type { HeldKey } from "./key-memory.ts";

type Printed = readonly Pick<FactOf<"paper-printed">, "body">[];

export const keyPapers = ["kitchen-by-product", "kitchen-by-tray", "sealed-page"] as const satisfies readonly Paper[];
export const showsKey = (paper: Paper): boolean => (keyPapers as readonly Paper[]).includes(paper);

/** Was this paper printed before, on any device, by what the log says? */
export const printedBefore = (paper: Paper, printed: Printed): boolean =>
  printed.some(({ body }) => body.paper === paper);

/** What a print puts into the log. A reprint is any further print of a paper with the key, and of no other. */
export const printBody = (paper: Paper, printed: Printed): Body<"paper-printed"> => ({
  paper,
  reprint: showsKey(paper) && printedBefore(paper, printed),
});

/**
 * May a paper be on the screen, or does its key have to be opened first? One with the key may when the key was opened
 * for it, and once, unprinted, right after the lock.
 */
export function mayShow(paper: Paper, held: HeldKey | null, printed: Printed): boolean {
  if (!showsKey(paper)) return true;
  if (held === null) return false;
  return held.paper === paper || (held.fresh && !printedBefore(paper, printed));
}

/**
 * Sees to it that no print goes unwritten, whether it comes from our button or from the browser's own menu and keys.
 *
 * Takes    covered: is the coming print in the log already; write: puts one into the log; print: opens the dialog
 */
export class PrintGuard {
  readonly #write: () => Promise<void>;
  readonly #print: () => void;
  #covered: boolean;
  #pressed = false;
  #busy = false;

  constructor(parts: { covered: boolean; write: () => Promise<void>; print: () => void }) {
    this.#write = parts.write;
    this.#print = parts.print;
    this.#covered = parts.covered;
  }

  /** Our button. Rejects, and prints nothing, when the print could not be written down. */
  async press(): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    try {
      // not every browser tells of a print that we asked for: a second press is a second print all the same
      if (!this.#covered || this.#pressed) await this.#write();
    } finally {
      this.#busy = false;
    }
    this.#pressed = true;
    this.#covered = true;
    this.#print();
  }

  /** The browser is about to print. It cannot be made to wait; what our button did not announce is written down now. */
  async before(): Promise<void> {
    if (!this.#covered) await this.#write();
    this.#covered = false;
  }
}
