/** kept: on disk. waiting: a change is a moment old. keeping: being written. failed: not on disk, still on the screen. */
export type KeepState = { at: "kept" } | { at: "waiting" } | { at: "keeping" } | { at: "failed"; thrown: unknown };

export type KeeperOptions<T> = {
  /** The event that the document at hand came from; null for a new one. */
  base: string | null;
  /** Writes an event with the document and returns its id once it is on disk. */
  save: (base: string | null, value: T) => Promise<string>;
  /** Milliseconds from the last change to the writing of it. */
  delayMs: number;
  onState: (state: KeepState) => void;
};

/**
 * Keeps every change of a document (a plan, the kitchen's defaults) as an event of its own, a moment after the last keystroke, or at once when asked.
 * One write at a time, each naming the one before as its base; a write that fails stays pending and is tried again
 * with the next change or flush.
 */
export class DraftKeeper<T> {
  #options: KeeperOptions<T>;
  #base: string | null;
  // in a box of its own: the same value asked for again while it is written is one more event
  #pending: { value: T } | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #writing: Promise<void> | null = null;

  constructor(options: KeeperOptions<T>) {
    this.#options = options;
    this.#base = options.base;
  }

  /** The newest draft event of this keeper. */
  get base(): string | null {
    return this.#base;
  }

  /** Is there a change that is not on disk yet? */
  get dirty(): boolean {
    return this.#pending !== null || this.#writing !== null;
  }

  change(value: T): void {
    this.#pending = { value };
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.flush(), this.#options.delayMs);
    this.#options.onState({ at: "waiting" });
  }

  /** Takes over a draft that came from elsewhere, while nothing of our own is pending. */
  rebase(base: string): void {
    if (!this.dirty) this.#base = base;
  }

  /** Writes what is pending. Resolves when it is on disk or has failed; the state says which. */
  async flush(): Promise<void> {
    clearTimeout(this.#timer);
    while (this.#writing) await this.#writing;
    if (this.#pending === null) return;
    this.#writing = this.#write(this.#pending).finally(() => {
      this.#writing = null;
    });
    await this.#writing;
  }

  async #write(pending: { value: T }): Promise<void> {
    this.#options.onState({ at: "keeping" });
    try {
      this.#base = await this.#options.save(this.#base, pending.value);
      if (this.#pending === pending) this.#pending = null;
      this.#options.onState(this.#pending === null ? { at: "kept" } : { at: "waiting" });
    } catch (thrown) {
      this.#options.onState({ at: "failed", thrown });
    }
  }
}
