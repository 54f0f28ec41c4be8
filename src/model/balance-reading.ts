import { type BalanceLine, type NoReading, readBalanceLine } from "./balance-line.ts";

/** Far longer than any line of a balance; what is longer is noise without line ends. */
const longestLine = 96;
const [cr, lf, stx, etx] = [0x0d, 0x0a, 0x02, 0x03];

/** The bytes of one connection to a balance, as they come, made into lines. */
export type BalanceStream = {
  /** Takes the next bytes, cut anywhere; gives the lines that end in them. */
  take: (bytes: Uint8Array) => BalanceLine[];
  /**
   * Nothing came for longer than any balance pauses within a line. What comes next begins a line; a line that is under
   * way is not whole any more.
   */
  quiet: () => void;
  /** Something was lost here: the line under way is no reading. */
  broken: () => void;
  /** The connection is over: gives what was under way, as cut. */
  end: () => BalanceLine[];
};

/**
 * Reads the text that a balance sends. Lines end in CR, LF or both; blank ones are nothing. What stands before the first
 * line end is no reading unless it was quiet before it: whoever connects may come into the middle of a line, and
 * "34.5 g" may be the end of "1234.5 g".
 *
 * Takes    bareGrams: somebody said that this balance sends grams without a unit. Once it named a unit after all, a
 *          number without one is no reading: some balances leave the unit out while they are not stable
 */
export function balanceStream({ bareGrams }: { bareGrams: boolean }): BalanceStream {
  let held: number[] = [];
  let whole = false;
  let long = false;
  let unitSeen = false;

  const finish = (): BalanceLine[] => {
    const bytes = withoutFrame(held);
    const why: NoReading | null = long ? "too-long" : !whole ? "cut" : bytes.every(isText) ? null : "noise";
    const text = bytes
      .map((byte) => (isText(byte) ? String.fromCharCode(byte) : "\u00b7"))
      .join("")
      .trim();
    held = [];
    long = false;
    whole = true;
    if (text === "") return [];
    if (why !== null) return [{ kind: "none", why, text }];
    const { line, unit } = readBalanceLine(text, bareGrams && !unitSeen);
    unitSeen ||= unit;
    return [line];
  };
  const take = (bytes: Uint8Array): BalanceLine[] => {
    const lines: BalanceLine[] = [];
    for (const byte of bytes) {
      if (byte === cr || byte === lf) lines.push(...finish());
      else if (held.length < longestLine) held.push(byte);
      else long = true;
    }
    return lines;
  };
  return {
    take,
    quiet: () => {
      whole = held.length === 0;
    },
    broken: () => {
      whole = false;
    },
    end: () => {
      whole = false;
      const lines = finish();
      whole = false;
      return lines;
    },
  };
}

/** Printable ASCII, or a tab. */
const isText = (byte: number): boolean => (byte >= 0x20 && byte <= 0x7e) || byte === 0x09;

/** Without the marks of beginning and end that some balances put around a line. */
function withoutFrame(bytes: readonly number[]): readonly number[] {
  const from = bytes[0] === stx ? 1 : 0;
  return bytes.slice(from, bytes.at(-1) === etx ? -1 : undefined);
}
