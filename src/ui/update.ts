import { Workbox } from "workbox-window";

/** A worker that was told to take over does so at once, or is stuck: then nothing waits for it any longer. */
const takeoverMs = 10_000;

/**
 * Registers the entry's service worker and watches for a new version.
 *
 * `onWaiting` is called when a new version is ready; it takes over only when `accept` is called, which a screen does
 * between trays, never during one. `accept` resolves when it has. Every window of the entry is then loaded anew, each
 * when `whenFree` runs what it is given: a window with a tray in hand puts that down first. Without a secure origin
 * there is no worker: returns null, and the screen says so.
 */
export function watchForUpdate(
  scope: string,
  onWaiting: (accept: () => Promise<void>) => void,
  whenFree: (run: () => void) => void = (run) => run(),
): { look: () => void } | null {
  if (!("serviceWorker" in navigator) || !import.meta.env.PROD) return null;
  const workbox = new Workbox(`${scope}sw.js`, { scope });
  let taken = (): void => {};
  const accept = (): Promise<void> =>
    new Promise((done) => {
      taken = done;
      setTimeout(done, takeoverMs);
      workbox.messageSkipWaiting();
    });
  workbox.addEventListener("waiting", () => onWaiting(accept));
  // the first worker takes over a page that had none, which changes nothing; any later one brings another version
  let controlled = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    taken();
    if (controlled) whenFree(() => window.location.reload());
    controlled = true;
  });
  // the worker's script cannot be fetched without network: looking again later is all there is to do
  const look = (): void => void workbox.update().catch(() => undefined);
  void workbox.register().catch(() => undefined);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") look();
  });
  setInterval(look, 15 * 60_000);
  return { look };
}
