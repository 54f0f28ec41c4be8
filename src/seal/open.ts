import { type OpenedKey, openedKey, type SealedKey, sealedKey } from "../model/key.ts";
import { problem } from "../model/problem.ts";
import { read } from "../model/schema.ts";
import { associatedData, checksum, checksumBytes, cipherKey, fromBase64, subtle } from "./cipher.ts";
import { commitmentOf } from "./commitment.ts";
import { fromHex } from "./random.ts";

/**
 * Opens a sealed key.
 *
 * Takes    sealed: as it was stored; passphrase: as somebody typed it, case and spaces do not matter
 * Returns  the key with the random bytes of its commitment, checked against the commitment: all or nothing
 * Throws   Problem "key/damaged" (the seal is not what was stored), "key/wrong-passphrase",
 *          "key/commitment-mismatch" (it holds another key than was locked), "lock/insecure-origin"
 */
export async function openKey(sealed: SealedKey, passphrase: string): Promise<OpenedKey> {
  const parts = read(sealedKey, sealed, () => problem("key/damaged"));
  const ciphertext = soundCiphertext(parts);
  const plaintext = await decrypted(parts, ciphertext, passphrase);
  const opened = read(openedKey, parsed(plaintext), () => problem("key/damaged"));
  const found = commitmentOf(opened);
  if (found !== parts.commitment || opened.key.study !== parts.study) {
    throw problem("key/commitment-mismatch", { expected: parts.commitment, found });
  }
  return opened;
}

function soundCiphertext({ ciphertext, ...parts }: SealedKey): Uint8Array<ArrayBuffer> {
  const whole = fromBase64(ciphertext);
  if (!whole || whole.length <= checksumBytes) throw problem("key/damaged");
  const bytes = whole.slice(0, -checksumBytes);
  const given = whole.slice(-checksumBytes);
  if (checksum(parts, bytes).some((byte, at) => byte !== given[at])) throw problem("key/damaged");
  return bytes;
}

async function decrypted(
  parts: SealedKey,
  ciphertext: Uint8Array<ArrayBuffer>,
  passphrase: string,
): Promise<Uint8Array> {
  if (parts.iv.length % 2 !== 0 || parts.kdf.salt.length % 2 !== 0) throw problem("key/damaged");
  const key = await cipherKey(passphrase, parts.kdf);
  const how = { name: "AES-GCM", iv: fromHex(parts.iv), additionalData: associatedData(parts) };
  try {
    return new Uint8Array(await subtle().decrypt(how, key, ciphertext));
  } catch (thrown) {
    // the checksum held, so a failing tag means another passphrase
    if (thrown instanceof DOMException && thrown.name === "OperationError") throw problem("key/wrong-passphrase");
    throw thrown;
  }
}

function parsed(plaintext: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(plaintext));
  } catch {
    throw problem("key/damaged");
  }
}
