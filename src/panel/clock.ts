/** Time as the screens use it: handed in, so that a test can hold it still. */
export type Clock = {
  /** Milliseconds that only ever grow; for pauses and for how long an answer took. */
  monotonic(): number;
  /** The device's idea of now, ISO 8601 in UTC; shown, never compared with another device. */
  instant(): string;
  /** Runs once after so many milliseconds; returns the way to call that off. */
  after(ms: number, run: () => void): () => void;
};
