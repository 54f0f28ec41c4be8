import type { OpenedKey } from "../model/key.ts";

/**
 * The opened key while its papers are printed: in the memory of this page and nowhere else. Strings cannot be wiped,
 * so the page loads itself anew when the papers are left (`app.tsx`); nothing of this is ever stored.
 */
export type HeldKey = {
  study: string;
  opened: OpenedKey;
  /** Shown once after the lock; null when the key was opened for a reprint, or once it was written down. */
  passphrase: string | null;
  /** True right after the lock: what is printed now is no reprint. */
  fresh: boolean;
};

let key: HeldKey | null = null;

export const holdKey = (held: HeldKey): void => {
  key = held;
};

/** The key of this study, when it is open in this page. */
export const heldKey = (study: string): HeldKey | null => (key?.study === study ? key : null);

/** The study whose key is open in this page, if any. */
export const heldStudy = (): string | null => key?.study ?? null;

/** The passphrase is written down: it is not kept a moment longer. */
export const dropPassphrase = (): void => {
  if (key) key = { ...key, passphrase: null };
};
