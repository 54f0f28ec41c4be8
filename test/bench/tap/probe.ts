/** What the page noticed of one tap, in milliseconds since it was opened; null until it happened. */
export type Noticed = { tap: number | null; durable: number | null; said: number | null };

/**
 * Runs in a page, before its own script: notices when the finger leaves the glass, when the strict transaction that
 * adds a record to "events" is complete, and when the screen says so.
 *
 * It stands at the browser's own borders, so that the same probe fits the panel and the skeleton, and no code of
 * either has to know that it is watched. A tap counts from the system's time of the event: what the page is too busy
 * to handle is waiting time as well.
 */
export function probe(saidBy: string): void {
  const noticed: Noticed = { tap: null, durable: null, said: null };
  Object.assign(window, { noticed });
  window.addEventListener(
    "pointerup",
    (event) => {
      noticed.tap = event.timeStamp;
    },
    true,
  );
  const adding = new WeakSet<IDBTransaction>();
  const { add } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.add = function (...given) {
    if (this.name === "events" && this.transaction.durability === "strict") adding.add(this.transaction);
    return add.apply(this, given);
  };
  const { transaction: begin } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (...given) {
    const transaction = begin.apply(this, given);
    // the first listener: whoever waits for the end as well may change the screen as soon as its own turn comes
    transaction.addEventListener("complete", () => {
      if (adding.has(transaction)) noticed.durable = performance.now();
    });
    return transaction;
  };
  const look = (): void => {
    if (noticed.tap === null || noticed.said !== null) return;
    if ([...document.querySelectorAll("h1, h2")].some((heading) => heading.textContent === saidBy)) {
      noticed.said = performance.now();
    }
  };
  new MutationObserver(look).observe(document, { subtree: true, childList: true, characterData: true });
}

/** Runs in the page: forgets the last tap. */
export function forget(): void {
  Object.assign((window as unknown as { noticed: Noticed }).noticed, { tap: null, durable: null, said: null });
}

/** Runs in the page: what there is by now; null until all three have happened. */
export function whole(): Noticed | null {
  const { noticed } = window as unknown as { noticed: Noticed };
  return noticed.tap === null || noticed.durable === null || noticed.said === null ? null : { ...noticed };
}
