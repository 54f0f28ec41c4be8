import { canonicalText, sha256 } from "../model/canonical.ts";
import type { SealedKey } from "../model/key.ts";
import { problem } from "../model/problem.ts";
import { fromHex } from "./random.ts";

/** Rounds of PBKDF2-HMAC-SHA-256 for new seals; OWASP ASVS 5.0 asks for at least 600,000. */
export const kdfRounds = 600_000;
/** Plaintexts are filled up to a multiple of this, so that a ciphertext's length tells nothing of the key. */
export const blockBytes = 65_536;
/** Bytes of the checksum behind the ciphertext. */
export const checksumBytes = 32;

/** What is authenticated beside the ciphertext: a seal cannot be moved to another study or another commitment. */
export const associatedData = (sealed: Pick<SealedKey, "study" | "commitment">): Uint8Array<ArrayBuffer> =>
  new TextEncoder().encode(`${sealed.study}|${sealed.commitment}`);

/** WebCrypto. Throws Problem "lock/insecure-origin" where the browser withholds it (plain HTTP, not localhost). */
export function subtle(): SubtleCrypto {
  // typed as always there, but missing on an insecure origin
  const found = globalThis.crypto?.subtle as SubtleCrypto | undefined;
  if (!found) throw problem("lock/insecure-origin", { origin: globalThis.location?.origin ?? "this address" });
  return found;
}

/** A passphrase as it goes into the key: case, kind and number of spaces or hyphens between words do not matter. */
export const normalizePassphrase = (passphrase: string): string =>
  passphrase
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[\s-]+/g, " ")
    .trim();

/** The AES-256 key of a passphrase, by PBKDF2-HMAC-SHA-256 (RFC 8018). */
export async function cipherKey(passphrase: string, kdf: SealedKey["kdf"]): Promise<CryptoKey> {
  const bytes = new TextEncoder().encode(normalizePassphrase(passphrase));
  const material = await subtle().importKey("raw", bytes, "PBKDF2", false, ["deriveKey"]);
  return await subtle().deriveKey(
    { name: "PBKDF2", hash: "SHA-256", salt: fromHex(kdf.salt), iterations: kdf.rounds },
    material,
    { name: "AES-GCM", length: 256 },
    false,
    ["encrypt", "decrypt"],
  );
}

/**
 * Checksum over everything a seal holds. It is no secret and protects nothing; it only tells a damaged seal from a
 * mistyped passphrase, which AES-GCM alone cannot.
 */
export function checksum(parts: Omit<SealedKey, "ciphertext">, ciphertext: Uint8Array): Uint8Array<ArrayBuffer> {
  return fromHex(sha256(canonicalText([parts, toBase64(ciphertext)])));
}

/** Bytes as base64 text. */
export function toBase64(bytes: Uint8Array): string {
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
}

/** Base64 text as bytes, or null when it is none. */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> | null {
  try {
    return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  } catch {
    return null;
  }
}
