import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { BalanceLine } from "../../src/model/balance-line.ts";
import { balanceStream } from "../../src/model/balance-reading.ts";

const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** All lines of a stream that begins with a line end, cut after each of these many bytes. */
function replay(bytes: Uint8Array, cuts: readonly number[] = [], bareGrams = false): BalanceLine[] {
  const stream = balanceStream({ bareGrams });
  stream.quiet();
  const lines: BalanceLine[] = [];
  let from = 0;
  for (const cut of [...cuts, bytes.length]) {
    lines.push(...stream.take(bytes.subarray(from, from + cut)));
    from += cut;
  }
  return [...lines, ...stream.end()];
}
/** One line as "1234.5 stable", or why it is no reading. */
function said(line: string, bareGrams = false): string {
  const [found] = replay(bytesOf(`${line}\r\n`), [], bareGrams);
  if (!found) return "nothing";
  if (found.kind === "none") return found.why;
  return `${found.grams}${found.stable === null ? "" : found.stable ? " stable" : " unstable"}`;
}

test.each([
  ["1.5 kg", 100],
  ["12.34 kg", 10],
  ["2 kg", 1000],
  ["1.500 kg", null],
  ["1.4976 kg", null],
  ["1500 g", null],
])("%s: a step in grams of %s that the last digit would not say", (line, step) => {
  const [found] = replay(bytesOf(`${line}\r\n`), [], false);
  expect(found).toMatchObject({ kind: "reading", coarseStep: step });
});

describe("forms of lines that manuals of general balances print", () => {
  // A&D, EK-L series, instruction manual, 9-2 Data format: examples and heads (seen in a copy on the web)
  test.each([
    ["ST,+001234.5  g", "1234.5 stable"],
    ["US,+001234.5  g", "1234.5 unstable"],
    ["OL,+999999.9  g", "overload"],
    ["QT,+00012345 PC", "not-understood"],
    ["ST,+0000123.4  %", "unit"],
    ["ST,+0001.2345 kg", "1234.5 stable"],
  ])("a head, a comma and nine digits: %s", (line, expected) => expect(said(line)).toBe(expected));

  // Tiger TI-02-P, manual, 7.1 Auto weight format string: status, net or gross, sign, seven characters, unit
  test.each([
    ["ST,GS,   12.345,kg", "12345 stable"],
    ["US,NT,-  12.345,kg", "-12345 unstable"],
    ["ST,GS,   12.345,lb", "unit"],
    ["ST,GS,      200,g ", "200 stable"],
  ])("fields with commas between: %s", (line, expected) => expect(said(line)).toBe(expected));

  // Sartorius, LE and CP series, Data output: 16 and 22 characters, "Unit symbol or space", special and error codes
  test.each([
    ["+   123.56 g  ", "123.56"],
    ["-   123.56 g  ", "-123.56"],
    ["+   123.5[6]g ", "123.56"],
    ["N     +   123.56 g  ", "123.56"],
    ["+   123.56    ", "no-unit"],
    ["       H      ", "overload"],
    ["       L      ", "underload"],
    ["   Err 054    ", "error"],
  ])("sign first, last digit in brackets, identifier: %s", (line, expected) => expect(said(line)).toBe(expected));

  // Ohaus, RS232 interface, output examples: weight, unit, "?" when unstable and blank when stable
  test.each([
    ["        0.00 g     ", "0.00"],
    ["       12.73 g    ?", "12.73 unstable"],
    ["      0.4500 oz    ", "unit"],
    ["           3 PCS   ", "unit"],
    ["      0.211 kg   ?", "211 unstable"],
  ])("the mark behind: %s", (line, expected) => expect(said(line)).toBe(expected));

  // Radwag, PS and AS series, Format of data sent after pressing PRINT: marker, sign, mass, unit
  test.each([
    ["?      1832.0 g  ", "1832.0 unstable"],
    ["       18.32[0] g  ", "18.320"],
    ["^      1832.0 g  ", "overload"],
    ["v      1832.0 g  ", "underload"],
  ])("the mark in front: %s", (line, expected) => expect(said(line)).toBe(expected));

  // Mettler-Toledo, AT balances, Basic information on data interchange: answers to the command S
  test.each([
    ["S S     100.00 g", "100.00 stable"],
    ["S D     100.01 g", "100.01 unstable"],
    ["S S      -3.20 g", "-3.20 stable"],
    ["S +", "overload"],
    ["S -", "underload"],
    ["S I", "not-understood"],
  ])("answers to a command: %s", (line, expected) => expect(said(line)).toBe(expected));
});

describe("nothing is guessed", () => {
  test.each([
    ["1497,6 g", "1497.6"],
    ["250 mg", "0.250"],
    ["1234.50 mg", "1.23450"],
    ["5 mg", "0.005"],
    ["1.4976 kg", "1497.6"],
    ["0.5 kg", "500"],
    ["- 3.2 g", "-3.2"],
    ["Net: 12.0 g", "12.0"],
  ])("digits keep their decimals, the point moves with the unit: %s", (line, expected) =>
    expect(said(line)).toBe(expected),
  );

  test.each([
    // a million grams or a thousandth of one
    ["12.0 MG", "unit"],
    ["12.0 ct", "unit"],
    ["2 lb 3.4 oz", "not-understood"],
    ["1,234.5 g", "not-understood"],
    ["1 234.5 g", "not-understood"],
    ["12.0", "no-unit"],
    ["T 12.0 g", "not-understood"],
    ["TOTAL 12.0 g", "not-understood"],
    ["ST 12.0 g ?", "not-understood"],
    ["tray12.0 g", "not-understood"],
    ["14:05:10", "not-understood"],
    ["--------", "not-understood"],
    ["12345678.0 g", "out-of-range"],
    ["0.1234 mg", "out-of-range"],
  ])("%s is no reading", (line, expected) => expect(said(line)).toBe(expected));

  test("a number without a unit is grams only where somebody said so, and never once a unit came", () => {
    expect(said("12.0", true)).toBe("12.0");
    expect(said("12.0 N", true)).toBe("unit");
    const lines = replay(bytesOf("12.0\r\n+ 12.5 g\r\n+ 13.0\r\n"), [], true);
    expect(lines.map((line) => (line.kind === "none" ? line.why : line.grams))).toEqual(["12.0", "12.5", "no-unit"]);
  });

  test("a line into which the reader came, one that pauses, one that lost a byte and one that never ends are cut", () => {
    const stream = balanceStream({ bareGrams: false });
    const come = (text: string) =>
      stream.take(bytesOf(text)).map((line) => (line.kind === "none" ? line.why : line.grams));
    expect(come("34.5 g\r\n1234.5 g\r\n")).toEqual(["cut", "1234.5"]);
    expect(come("ST,+12")).toEqual([]);
    stream.quiet();
    expect(come("34.5 g\r\n")).toEqual(["cut"]);
    stream.broken();
    expect(come("4.5 g\r\n1234.5 g\r\n")).toEqual(["cut", "1234.5"]);
    expect(come("ST,+1234")).toEqual([]);
    expect(stream.end()).toEqual([{ kind: "none", why: "cut", text: "ST,+1234" }]);
  });

  test("a frame of STX and ETX is taken off; any other byte that is no text spoils its line and no other", () => {
    expect(said("\u000212.0 g\u0003")).toBe("12.0");
    const lines = replay(bytesOf(`1\u00ff2.0 g\r\n${"8".repeat(5000)} g\r\n12.0 g\r\n`));
    expect(lines.map((line) => (line.kind === "none" ? line.why : line.grams))).toEqual(["noise", "too-long", "12.0"]);
  });
});

const mass = fc.tuple(fc.nat(9999), fc.nat(99)).map(([whole, rest]) => `${whole}.${String(rest).padStart(2, "0")}`);
/** A line and what it has to give: the number is put together here, not by the parser. */
const known = fc.oneof(
  mass.map((digits) => ({ line: `ST,+${digits.padStart(9, "0")}  g`, grams: digits })),
  mass.map((digits) => ({ line: `US,+${digits.padStart(9, "0")}  g`, grams: digits })),
  fc.nat(9999).map((grams) => ({
    line: `ST,+${(grams / 1000).toFixed(3).padStart(9, "0")} kg`,
    grams: String(grams),
  })),
  mass.map((digits) => ({ line: `${digits.padStart(10)} oz`, grams: null })),
  mass.map((digits) => ({ line: digits.padStart(10), grams: null })),
  fc.constantFrom("H", "Err 54", "S +", "OL,+9999.99  g").map((line) => ({ line, grams: null })),
);
const ends = fc.constantFrom("\r", "\n", "\r\n");
const cuts = fc.array(fc.integer({ min: 0, max: 40 }), { maxLength: 30 });

describe("any stream", () => {
  test("with units and states that change in it: each line gives its own reading, however the bytes are cut", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(known, ends), { maxLength: 12 }), cuts, (lines, at) => {
        const bytes = bytesOf(lines.map(([{ line }, end]) => line + end).join(""));
        const found = replay(bytes, at).map((line) => (line.kind === "reading" ? line.grams : null));
        expect(found).toEqual(lines.map(([{ grams }]) => grams));
      }),
    );
  });

  test("cut anywhere, with noise in it: the same lines, and no reading that does not stand in it", () => {
    const noise = fc.uint8Array({ maxLength: 30 }).map((bytes) => [...bytes]);
    const texts = fc.oneof(known, known, known).map(({ line }) => [...bytesOf(line)]);
    const parts = fc.array(
      fc.oneof(
        noise,
        texts,
        ends.map((end) => [...bytesOf(end)]),
      ),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(parts, cuts, fc.boolean(), (some, at, bare) => {
        const bytes = Uint8Array.from(some.flat());
        const found = replay(bytes, at, bare);
        expect(found).toEqual(replay(bytes, [], bare));
        const stream = String.fromCharCode(...bytes);
        for (const line of found) {
          if (line.kind !== "reading") continue;
          // the digits, wherever the unit put the point, stand in the stream side by side
          const digits = line.grams.replace(/[-.]/g, "").replace(/^0+(?=\d)/, "");
          const padded = stream.replace(/(\d)[.,[\]]+(?=\d)/g, "$1");
          expect(padded.includes(digits) || padded.includes(digits.replace(/0{1,3}$/, ""))).toBe(true);
          expect(stream).toContain(line.text);
        }
      }),
    );
  });
});
