import { createDecipheriv, pbkdf2Sync } from "node:crypto";
import { beforeAll, describe, expect, test, vi } from "vitest";
import { canonicalText } from "../../src/model/canonical.ts";
import { type Key, type OpenedKey, type SealedKey, sealedKey } from "../../src/model/key.ts";
import { read } from "../../src/model/schema.ts";
import { associatedData, checksum, cipherKey, fromBase64, toBase64 } from "../../src/seal/cipher.ts";
import { commitmentOf, withSalt } from "../../src/seal/commitment.ts";
import { openKey } from "../../src/seal/open.ts";
import { fromHex } from "../../src/seal/random.ts";
import { sealKey } from "../../src/seal/seal.ts";
import { checksCommitment } from "../../src/seal/verify.ts";
import { problemOfPromise } from "../problem-of.ts";
import { keyOf } from "./scenario.ts";

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const passphrase = "anchor basket candle dolphin ember falcon garden hammer";
const key = keyOf("5eed");
let sealed: SealedKey;
let opened: OpenedKey;
beforeAll(async () => {
  ({ sealed, opened } = await sealKey(key, passphrase));
});

describe("sealing and opening", () => {
  test("gives back the key and the salt, and the seal fits its schema", async () => {
    expect(read(sealedKey, sealed)).toEqual(sealed);
    expect(await openKey(sealed, passphrase)).toEqual(opened);
    expect(opened.key).toEqual(key);
  });
  test.each([
    ["capitals and more spaces", "  Anchor BASKET  candle dolphin\tember falcon garden hammer "],
    ["hyphens", "anchor-basket-candle-dolphin-ember-falcon-garden-hammer"],
  ])("%s in the passphrase do not matter", async (_, typed) => {
    expect(await openKey(sealed, typed)).toEqual(opened);
  });
  test("another program opens it by the same published steps (node:crypto: PBKDF2, AES-256-GCM)", () => {
    const bytes = fromBase64(sealed.ciphertext) ?? new Uint8Array();
    const derived = pbkdf2Sync(passphrase, Buffer.from(sealed.kdf.salt, "hex"), sealed.kdf.rounds, 32, "sha256");
    const decipher = createDecipheriv("aes-256-gcm", derived, Buffer.from(sealed.iv, "hex"));
    decipher.setAAD(Buffer.from(`${sealed.study}|${sealed.commitment}`));
    decipher.setAuthTag(bytes.slice(-48, -32));
    const text = Buffer.concat([decipher.update(bytes.slice(0, -48)), decipher.final()]).toString("utf8");
    expect(JSON.parse(text)).toEqual(opened);
  });
  test("at least 600,000 rounds, a 16-byte salt and a 12-byte IV, new ones each time", async () => {
    const again = await sealKey(key, passphrase);
    expect(sealed.kdf.rounds).toBeGreaterThanOrEqual(600_000);
    expect([sealed.kdf.salt.length, sealed.iv.length, opened.salt.length]).toEqual([32, 24, 64]);
    expect(again.sealed.iv).not.toBe(sealed.iv);
    expect(again.sealed.kdf.salt).not.toBe(sealed.kdf.salt);
    expect(again.opened.salt).not.toBe(opened.salt);
    expect(again.sealed.commitment).not.toBe(sealed.commitment);
  });
  test("the seal shows no product, no batch and no order, as text or below its base64", async () => {
    const named = keyOf("5eed", "second pan of the morning");
    const { sealed: shown } = await sealKey(named, passphrase);
    const text = `${JSON.stringify(shown)}${Buffer.from(shown.ciphertext, "base64").toString("latin1")}`;
    const secrets = named.trays.flatMap(({ samples }) => samples.flatMap(({ product, batch }) => [product, batch]));
    expect([...new Set(secrets), '"order"'].filter((secret) => text.includes(secret))).toEqual([]);
  });
  test("is as long for every key of a plan's size, whatever orders and batches (a whole number of 64 KiB blocks)", async () => {
    const others = await Promise.all(
      ["1", "2"].map((seed) => sealKey(keyOf(seed, "a batch with a long name"), passphrase)),
    );
    for (const other of others) expect(other.sealed.ciphertext).toHaveLength(sealed.ciphertext.length);
    // 16 bytes of tag, 32 of checksum
    expect(((fromBase64(sealed.ciphertext)?.length ?? 0) - 48) % 65_536).toBe(0);
  });
});

/** The seal with changed parts and a checksum that fits them: what a forger would send. */
function forged(changes: Partial<SealedKey>, change: (bytes: Uint8Array<ArrayBuffer>) => void = () => {}): SealedKey {
  const { ciphertext, ...parts } = { ...sealed, ...changes };
  const bytes = (fromBase64(ciphertext) ?? new Uint8Array()).slice(0, -32);
  change(bytes);
  return { ...parts, ciphertext: toBase64(new Uint8Array([...bytes, ...checksum(parts, bytes)])) };
}

describe("a seal that does not open", () => {
  const wrong = { code: "key/wrong-passphrase", details: {} };
  const damaged = { code: "key/damaged", details: {} };

  test.each(["", "anchor", passphrase.replace("hammer", "hammock"), passphrase.split(" ").reverse().join(" ")])(
    "another passphrase: %j",
    async (typed) => {
      expect(await problemOfPromise(openKey(sealed, typed))).toEqual(wrong);
    },
  );
  test("any byte flipped, 80 sampled over the whole: damaged", async () => {
    const bytes = fromBase64(sealed.ciphertext) ?? new Uint8Array();
    for (let sample = 0; sample < 80; sample++) {
      const at = Math.floor((sample * (bytes.length - 1)) / 79);
      const flipped = bytes.slice();
      flipped[at] = (flipped[at] ?? 0) ^ (1 << (sample % 8));
      const ciphertext = toBase64(flipped);
      expect(await problemOfPromise(openKey({ ...sealed, ciphertext }, passphrase))).toEqual(damaged);
    }
  });
  test.each([0, 1, 20, 100, 65_000])("cut to %d characters: damaged", async (length) => {
    const ciphertext = sealed.ciphertext.slice(0, length);
    expect(await problemOfPromise(openKey({ ...sealed, ciphertext }, passphrase))).toEqual(damaged);
  });
  test.each<[string, Partial<SealedKey>]>([
    ["no base64", { ciphertext: "not base64!" }],
    ["another IV", { iv: "00".repeat(12) }],
    ["another salt", { kdf: { rounds: 600_000, salt: "00".repeat(16) } }],
    ["fewer rounds", { kdf: { rounds: 1_000, salt: "00".repeat(16) } }],
    ["another commitment", { commitment: "0".repeat(64) }],
    ["another study", { study: "bbbbbbbb-bbbb-4ccc-8ddd-eeeeeeeeeeee" }],
  ])("%s: damaged", async (_, changes) => {
    expect(await problemOfPromise(openKey({ ...sealed, ...changes }, passphrase))).toEqual(damaged);
  });
  test("a forger's ciphertext with a checksum that fits is refused by the tag, with no partial result", async () => {
    for (const at of [0, 1, 1_000, 65_535, 65_536, 65_551]) {
      const flipped = forged({}, (bytes) => {
        bytes[at] = (bytes[at] ?? 0) ^ 1;
      });
      expect(await problemOfPromise(openKey(flipped, passphrase))).toEqual(wrong);
    }
  });
  test.each<[string, Partial<SealedKey>]>([
    ["another study's name", { study: "bbbbbbbb-bbbb-4ccc-8ddd-eeeeeeeeeeee" }],
    ["another commitment", { commitment: "0".repeat(64) }],
    ["another IV", { iv: "00".repeat(12) }],
  ])("a forger's seal under %s is refused by the tag", async (_, changes) => {
    expect(await problemOfPromise(openKey(forged(changes), passphrase))).toEqual(wrong);
  });
  test("another key under the locked commitment, sealed with the right passphrase: the mismatch is named", async () => {
    const other = canonicalText({ ...opened, key: keyOf("a0b1") });
    const bytes = await crypto.subtle.encrypt(
      { name: "AES-GCM", iv: fromHex(sealed.iv), additionalData: associatedData(sealed) },
      await cipherKey(passphrase, sealed.kdf),
      new TextEncoder().encode(other),
    );
    const swapped = forged({ ciphertext: toBase64(new Uint8Array([...new Uint8Array(bytes), ...new Uint8Array(32)])) });
    const found = commitmentOf({ ...opened, key: keyOf("a0b1") });
    expect(await problemOfPromise(openKey(swapped, passphrase))).toEqual({
      code: "key/commitment-mismatch",
      details: { expected: sealed.commitment, found },
    });
  });
  test("without WebCrypto, as on plain HTTP, sealing and opening say so", async () => {
    vi.stubGlobal("crypto", { getRandomValues: crypto.getRandomValues.bind(crypto) });
    try {
      expect((await problemOfPromise(sealKey(key, passphrase))).code).toBe("lock/insecure-origin");
      expect((await problemOfPromise(openKey(sealed, passphrase))).code).toBe("lock/insecure-origin");
      // a reader's check needs none
      expect(checksCommitment(opened, sealed.commitment)).toBe(true);
    } finally {
      vi.unstubAllGlobals();
    }
  });
});

describe("the commitment", () => {
  const first = (change: (tray: Key["trays"][number]) => Key["trays"][number]): Key => ({
    ...key,
    trays: key.trays.map((tray, at) => (at === 0 ? change(tray) : tray)),
  });
  test("holds for the key that was locked", () => {
    expect(checksCommitment(opened, sealed.commitment)).toBe(true);
  });
  test.each<[string, () => OpenedKey]>([
    [
      "two codes swapped",
      () => ({
        ...opened,
        key: first((tray) => {
          const [one, two, three] = tray.samples;
          if (!one || !two || !three) throw new Error("a triangle has three samples");
          return { ...tray, samples: [{ ...one, code: two.code }, { ...two, code: one.code }, three] };
        }),
      }),
    ],
    [
      "another batch",
      () => ({
        ...opened,
        key: first((tray) => ({ ...tray, samples: tray.samples.map((s) => ({ ...s, batch: "?" })) })),
      }),
    ],
    ["another seed", () => ({ ...opened, key: { ...key, seed: "00" } })],
    ["another salt", () => withSalt(key)],
    ["another study", () => ({ ...opened, key: { ...key, study: "bbbbbbbb-bbbb-4ccc-8ddd-eeeeeeeeeeee" } })],
  ])("does not hold for %s", (_, other) => {
    expect(checksCommitment(other(), sealed.commitment)).toBe(false);
  });
  test("does not depend on the order of fields, which JSON does not keep", () => {
    const reversed = Object.fromEntries(Object.entries(opened.key).toReversed()) as Key;
    expect(checksCommitment({ salt: opened.salt, key: reversed }, sealed.commitment)).toBe(true);
  });
});
