/**
 * Runs in a page, before its own script: notes when the page is ready for a tray number, in milliseconds since its
 * address was asked for. Ready means that the heading and a field to type in are there and have been painted; the
 * browser has painted once the task after a frame runs.
 */
export function watchReady(heading: string): void {
  const isReady = (): boolean =>
    document.querySelector("input") !== null &&
    [...document.querySelectorAll("h1, h2")].some((one) => one.textContent === heading);
  const observer = new MutationObserver(() => {
    if (!isReady()) return;
    observer.disconnect();
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => Object.assign(window, { readyMs: performance.now() });
      port2.postMessage(null);
    });
  });
  observer.observe(document, { subtree: true, childList: true, characterData: true });
}

/** Runs in the page: the instant, or null until it has come. */
export const readyMs = (): number | null => (window as unknown as { readyMs?: number }).readyMs ?? null;
