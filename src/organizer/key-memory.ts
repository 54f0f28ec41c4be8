import type { Paper } from "../model/event.ts";
import type { OpenedKey } from "../model/key.ts";

/** The opened key while its papers are printed. */
export type HeldKey = {
  study: string;
  opened: OpenedKey;
  /** Shown once after the lock; null when the key was opened for a print, or once it was written down. */
  passphrase: string | null;
  /** True from the lock until the papers are left: each key paper may be printed once without the passphrase. */
  fresh: boolean;
  /** The one paper that the key was opened for; its print is in the log already. */
  paper: Paper | null;
};

/** How long an opened key stays in the page, from the moment it was opened or the passphrase was written down. */
export const keyLimitMs = 30 * 60_000;

/** Where somebody goes: a paper of a study, the list of its papers (null), or anywhere else. */
type Place = { study: string; paper: Paper | null } | null;

/**
 * Holds the opened key in the memory of this page and nowhere else. Strings cannot be wiped, so whoever is told "drop"
 * loads the page anew (`app.tsx`); nothing of this is ever stored. Instants come from the caller's clock.
 */
export class KeyMemory {
  #held: HeldKey | null = null;
  #since = "";

  hold(held: HeldKey, at: string): void {
    this.#held = held;
    this.#since = at;
  }

  /** The key of this study, or of any when none is named; null once its time is over. */
  held(at: string, study?: string): HeldKey | null {
    if (this.#isOver(at)) this.#held = null;
    return study === undefined || this.#held?.study === study ? this.#held : null;
  }

  /** The passphrase is written down: it is not kept a moment longer, and the time runs from now. */
  dropPassphrase(at: string): void {
    if (this.#held) this.hold({ ...this.#held, passphrase: null }, at);
  }

  /**
   * Somebody goes to another page. Returns "back" while the passphrase is still to be written down, "drop" when the
   * key went out of memory and the page is to be loaded anew, else "stay".
   */
  goTo(place: Place): "stay" | "back" | "drop" {
    const held = this.#held;
    if (!held) return "stay";
    if (place?.study === held.study) return held.paper === null || held.paper === place.paper ? "stay" : this.#done();
    return held.passphrase === null ? this.#drop() : "back";
  }

  /** The paper that the key was opened for has been printed. Right after the lock the key stays for the others. */
  printed(paper: Paper): "stay" | "drop" {
    return this.#held?.paper === paper ? this.#done() : "stay";
  }

  #done(): "stay" | "drop" {
    if (!this.#held?.fresh) return this.#drop();
    this.#held = { ...this.#held, paper: null };
    return "stay";
  }

  #drop(): "drop" {
    this.#held = null;
    return "drop";
  }

  /** A clock that was set back by as much is no longer to be trusted. The unwritten passphrase is never lost to time. */
  #isOver(at: string): boolean {
    if (!this.#held || this.#held.passphrase !== null) return false;
    return Math.abs(Date.parse(at) - Date.parse(this.#since)) >= keyLimitMs;
  }
}

/** The one memory of this page. */
export const keyMemory = new KeyMemory();
