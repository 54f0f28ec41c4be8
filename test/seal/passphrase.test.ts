import { expect, test } from "vitest";
import { newPassphrase, passphraseLength } from "../../src/seal/passphrase.ts";
import { cryptoUniform, fromHex, newSeed, randomBytes } from "../../src/seal/random.ts";
import { passphraseWords } from "../../src/seal/word-list.ts";

test("512 distinct plain words, 8 of them: 72 bits, at least the 70 asked for", () => {
  expect(new Set(passphraseWords).size).toBe(512);
  expect(passphraseWords.every((word) => /^[a-z]{3,8}$/.test(word))).toBe(true);
  expect(passphraseLength * Math.log2(passphraseWords.length)).toBe(72);
});

test("no two words differ by a single letter changed, added or left out", () => {
  const shapes = new Map<string, string>();
  for (const word of passphraseWords) {
    const own = new Set<string>();
    for (let at = 0; at <= word.length; at++) {
      // a gap at the changed letter, and at the letter left out
      own.add(`${word.slice(0, at)}_${word.slice(at + 1)}`);
      own.add(`${word.slice(0, at)}_${word.slice(at)}`);
    }
    for (const shape of own) {
      expect([shape, shapes.get(shape)]).toEqual([shape, undefined]);
      shapes.set(shape, word);
    }
  }
});

test("words follow from the random bytes alone: bytes 0, 0 give the first word, 1, 255 the last", () => {
  const bytes = Uint8Array.from([0, 0, 1, 255, 254, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1]);
  const words = newPassphrase(() => bytes).split(" ");
  expect(words).toHaveLength(8);
  expect(words[0]).toBe(passphraseWords[0]);
  expect(words[1]).toBe(passphraseWords[511]);
  expect(words[2]).toBe(passphraseWords[0]);
  expect(words[7]).toBe(passphraseWords[1]);
});

test("two passphrases from the platform's source differ", () => {
  expect(newPassphrase()).not.toBe(newPassphrase());
});

test("a number below n: draws past the last whole multiple are thrown back", () => {
  // 2^32 leaves 1 over after 3 * 1431655765: the highest value would favor 0
  const draws = [Uint8Array.from([255, 255, 255, 255]), Uint8Array.from([0, 0, 0, 5])];
  expect(cryptoUniform(() => draws.shift() ?? new Uint8Array(4)).below(3)).toBe(2);
  expect(draws).toHaveLength(0);
});

test("numbers below 6 come from 0 to 5, all of them, and nothing else", () => {
  const random = cryptoUniform();
  const drawn = new Set(Array.from({ length: 2_000 }, () => random.below(6)));
  expect([...drawn].toSorted()).toEqual([0, 1, 2, 3, 4, 5]);
  expect(random.below(1)).toBe(0);
});

test.each([0, -1, 1.5, Number.NaN, 2 ** 33])("a number below %d is refused", (n) => {
  expect(() => cryptoUniform().below(n)).toThrow(RangeError);
});

test("a seed is 32 hex digits, new each time", () => {
  expect(newSeed()).toMatch(/^[0-9a-f]{32}$/);
  expect(newSeed()).not.toBe(newSeed());
  expect(randomBytes(5)).toHaveLength(5);
});

test.each(["abc", "zz", "AB"])("%j is no pairs of hex digits", (text) => {
  expect(() => fromHex(text)).toThrow(RangeError);
});
