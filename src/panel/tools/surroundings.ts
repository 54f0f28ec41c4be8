/** ok, not ok, or nobody can tell. */
export type Verdict = "ok" | "bad" | "unknown";

/** What the check asks of the browser; a test hands in its own. */
export type Surroundings = {
  secure: boolean;
  /** Did the browser promise to delete nothing? null where it does not say. */
  persisted: () => Promise<boolean | null>;
  askToPersist: () => Promise<boolean | null>;
  /** Is everything that this page loaded in the worker's cache, and does the worker serve this page? */
  cached: () => Promise<boolean>;
  installed: () => boolean;
  /** Asks to keep the screen on and lets go again; null where it cannot be asked. */
  staysAwake: () => Promise<boolean | null>;
};

type AppleNavigator = Navigator & { standalone?: boolean };

export const browser: Surroundings = {
  secure: window.isSecureContext,
  persisted: async () => (await navigator.storage?.persisted?.().catch(() => null)) ?? null,
  askToPersist: async () => (await navigator.storage?.persist?.().catch(() => null)) ?? null,
  cached: async () => {
    if (!navigator.serviceWorker?.controller) return false;
    const loaded = performance.getEntriesByType("resource").map(({ name }) => name);
    const own = loaded.filter((name) => name.startsWith(`${location.origin}/assets/`));
    const wanted = [`${location.origin}/panel/index.html`, ...own];
    const found = await Promise.all(wanted.map((url) => caches.match(url, { ignoreSearch: true })));
    return found.every((response) => response !== undefined);
  },
  installed: () =>
    matchMedia("(display-mode: standalone), (display-mode: fullscreen)").matches ||
    (navigator as AppleNavigator).standalone === true,
  staysAwake: async () => {
    if (!navigator.wakeLock) return null;
    const lock = await navigator.wakeLock.request("screen").catch(() => null);
    await lock?.release().catch(() => undefined);
    return lock !== null;
  },
};
