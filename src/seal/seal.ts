import { canonicalText } from "../model/canonical.ts";
import type { Key, OpenedKey, SealedKey } from "../model/key.ts";
import { associatedData, blockBytes, checksum, cipherKey, kdfRounds, subtle, toBase64 } from "./cipher.ts";
import { commitmentOf, withSalt } from "./commitment.ts";
import { fromHex, type RandomBytes, randomBytes, toHex } from "./random.ts";

/**
 * Seals a key under a passphrase: AES-256-GCM, 12-byte random IV, bound to the study and the commitment.
 *
 * Takes    key: the sealed half of the trays; passphrase: a generated one; random: a cryptographic source
 * Returns  sealed: what is stored and sent; opened: the key with the random bytes of its commitment, for the sealed
 *          page and nothing else
 * Throws   Problem "lock/insecure-origin" where there is no WebCrypto
 */
export async function sealKey(
  key: Key,
  passphrase: string,
  random: RandomBytes = randomBytes,
): Promise<{ sealed: SealedKey; opened: OpenedKey }> {
  const opened = withSalt(key, random);
  const parts = {
    v: 1 as const,
    study: key.study,
    commitment: commitmentOf(opened),
    kdf: { rounds: kdfRounds, salt: toHex(random(16)) },
    iv: toHex(random(12)),
  };
  return { sealed: await encrypted(parts, padded(opened), passphrase), opened };
}

async function encrypted(
  parts: Omit<SealedKey, "ciphertext">,
  plaintext: Uint8Array<ArrayBuffer>,
  passphrase: string,
): Promise<SealedKey> {
  const iv = fromHex(parts.iv);
  const additionalData = associatedData(parts);
  const key = await cipherKey(passphrase, parts.kdf);
  const bytes = new Uint8Array(await subtle().encrypt({ name: "AES-GCM", iv, additionalData }, key, plaintext));
  const whole = new Uint8Array([...bytes, ...checksum(parts, bytes)]);
  return { ...parts, ciphertext: toBase64(whole) };
}

/** The canonical text of an opened key, filled with spaces (which JSON ignores) up to a whole number of blocks. */
function padded(opened: OpenedKey): Uint8Array<ArrayBuffer> {
  const text = new TextEncoder().encode(canonicalText(opened));
  const filled = new Uint8Array(Math.ceil(text.length / blockBytes) * blockBytes).fill(0x20);
  filled.set(text);
  return filled;
}
