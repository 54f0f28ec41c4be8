import { Workbox } from "workbox-window";

/**
 * Registers the entry's service worker and watches for a new version.
 *
 * `onWaiting` is called when a new version is ready; it takes over only when `accept` is called, which a screen does
 * between trays, never during one. Without a secure origin there is no worker: returns null, and the screen says so.
 */
export function watchForUpdate(scope: string, onWaiting: (accept: () => void) => void): { look: () => void } | null {
  if (!("serviceWorker" in navigator) || !import.meta.env.PROD) return null;
  const workbox = new Workbox(`${scope}sw.js`, { scope });
  workbox.addEventListener("waiting", () => onWaiting(() => workbox.messageSkipWaiting()));
  workbox.addEventListener("controlling", (event) => {
    if (event.isUpdate) window.location.reload();
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
