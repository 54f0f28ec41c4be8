/** Fills an array with bytes nobody can foresee; `crypto.getRandomValues` of browser and Node. */
export type RandomBytes = (length: number) => Uint8Array<ArrayBuffer>;

/** The platform's cryptographic source. It exists on plain HTTP too, unlike `crypto.subtle`. */
export const randomBytes: RandomBytes = (length) => globalThis.crypto.getRandomValues(new Uint8Array(length));

/** A new seed for the orders and batches of a design: 32 hex digits. */
export const newSeed = (random: RandomBytes = randomBytes): string => toHex(random(16));

/** Bytes that are fetched at once: one call of the platform's source costs as much as many bytes of it. */
const fetchedAtOnce = 4096;

/**
 * The cryptographic source as whole numbers from 0 to n - 1, each equally likely (n whole, 1 to 2^32): the source
 * for codes. Numbers past the last whole multiple of n are thrown back, since a bare remainder favors small ones.
 */
export function cryptoUniform(random: RandomBytes = randomBytes): { below(n: number): number } {
  const span = 2 ** 32;
  let fetched = new DataView(new ArrayBuffer(0));
  let used = 0;
  let limit = span;
  let limitFor = 1;
  const next = (): number => {
    if (used + 4 > fetched.byteLength) {
      const bytes = random(fetchedAtOnce);
      fetched = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
      used = 0;
    }
    used += 4;
    return fetched.getUint32(used - 4);
  };
  return {
    below(n) {
      if (n !== limitFor) {
        if (!Number.isInteger(n) || n < 1 || n > span) throw new RangeError(`no number below ${n}`);
        limit = span - (span % n);
        limitFor = n;
      }
      let drawn = next();
      while (drawn >= limit) drawn = next();
      return drawn % n;
    },
  };
}

/** Bytes as lowercase hex digits. */
export const toHex = (bytes: Uint8Array): string =>
  [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");

/** Hex digits, an even number of them, as bytes. Throws RangeError for anything else. */
export function fromHex(hex: string): Uint8Array<ArrayBuffer> {
  if (!/^([0-9a-f]{2})*$/.test(hex)) throw new RangeError("not pairs of hex digits");
  return Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
}
