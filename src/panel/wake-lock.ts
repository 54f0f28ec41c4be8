/**
 * Keeps the screen awake while a tray is open. The browser takes the lock back when the page is hidden, so it is
 * asked for again when it shows; where there is none, or it is refused, nothing else changes.
 */
export class WakeLock {
  #wanted = false;
  #lock: WakeLockSentinel | null = null;

  constructor() {
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible" && this.#wanted) void this.#ask();
    });
  }

  keep(): void {
    this.#wanted = true;
    void this.#ask();
  }

  letGo(): void {
    this.#wanted = false;
    void this.#lock?.release().catch(() => undefined);
    this.#lock = null;
  }

  async #ask(): Promise<void> {
    const lock = await navigator.wakeLock?.request("screen").catch(() => null);
    if (!lock) return;
    if (this.#wanted) this.#lock = lock;
    else void lock.release().catch(() => undefined);
  }
}
