import { type RandomBytes, randomBytes } from "./random.ts";
import { passphraseWords } from "./word-list.ts";

/** Words of a passphrase: 8 of 512 are 72 bits, since a ciphertext may lie on some tablet for years. */
export const passphraseLength = 8;

/**
 * A new passphrase: eight words with spaces between, each drawn evenly from 512.
 * 512 is a power of two, so nine random bits are one word and nothing has to be thrown back.
 */
export function newPassphrase(random: RandomBytes = randomBytes): string {
  const bytes = random(passphraseLength * 2);
  const words = Array.from({ length: passphraseLength }, (_, at) => {
    const drawn = ((bytes[2 * at] ?? 0) << 8) | (bytes[2 * at + 1] ?? 0);
    return passphraseWords[drawn % passphraseWords.length] ?? "";
  });
  return words.join(" ");
}
