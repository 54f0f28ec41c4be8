import { describe, expect, test } from "vitest";
import { sha256 } from "../../src/model/canonical.ts";
import type { SealedKey } from "../../src/model/key.ts";
import { cipherKey, normalizePassphrase } from "../../src/seal/cipher.ts";
import { fromHex, toHex } from "../../src/seal/random.ts";

describe("SHA-256, examples of FIPS 180-2 appendix B (from memory, recomputed with Python's hashlib)", () => {
  test.each([
    ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    [
      "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ],
    ["a".repeat(1_000_000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"],
  ])("%.10s…", (text, digest) => {
    expect(sha256(text)).toBe(digest);
  });
});

/** Encrypts with a raw AES-256 key, to compare a derived key with the published one without seeing it. */
async function encryptedWith(key: CryptoKey, parts: { iv: string; plaintext: string; additional: string }) {
  const how = { name: "AES-GCM", iv: fromHex(parts.iv), additionalData: fromHex(parts.additional) };
  return toHex(new Uint8Array(await crypto.subtle.encrypt(how, key, fromHex(parts.plaintext))));
}
const rawKey = (hex: string) => crypto.subtle.importKey("raw", fromHex(hex), "AES-GCM", false, ["encrypt"]);

describe("PBKDF2-HMAC-SHA-256: the key derived is the first 32 bytes of the published value", () => {
  const cases: [source: string, passphrase: string, kdf: SealedKey["kdf"], derived: string][] = [
    [
      "RFC 7914 section 11, first vector (from memory, recomputed with Python's hashlib)",
      "passwd",
      { salt: "73616c74", rounds: 1 },
      "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc",
    ],
    [
      "RFC 6070's inputs with SHA-256, 4096 rounds (from memory, recomputed with Python's hashlib)",
      "password",
      { salt: "73616c74", rounds: 4096 },
      "c5e478d59288c841aa530db6845c4c8d962893a001ce4e11a4963873aa98134a",
    ],
  ];
  test.each(cases)("%s", async (_, passphrase, kdf, derived) => {
    const parts = { iv: "cafebabefacedbaddecaf888", plaintext: "00".repeat(32), additional: "" };
    const ours = await encryptedWith(await cipherKey(passphrase, kdf), parts);
    expect(ours).toBe(await encryptedWith(await rawKey(derived), parts));
  });
});

test("AES-256-GCM, test case 16 of McGrew and Viega's GCM specification, as given to NIST (from memory)", async () => {
  const key = await rawKey("feffe9928665731c6d6a8f9467308308feffe9928665731c6d6a8f9467308308");
  const parts = {
    iv: "cafebabefacedbaddecaf888",
    plaintext:
      "d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a721c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39",
    additional: "feedfacedeadbeeffeedfacedeadbeefabaddad2",
  };
  expect(await encryptedWith(key, parts)).toBe(
    "522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662" +
      "76fc6ece0f4e1768cddf8853bb2d551b",
  );
});

test.each([
  ["Anchor  Basket ", "anchor basket"],
  ["anchor-basket", "anchor basket"],
  ["\tanchor\nbasket", "anchor basket"],
  ["ａｎｃｈｏｒ basket", "anchor basket"],
])("the passphrase %j is read as %j", (typed, normal) => {
  expect(normalizePassphrase(typed)).toBe(normal);
});
