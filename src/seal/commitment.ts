import { canonicalText, sha256 } from "../model/canonical.ts";
import type { Key, OpenedKey } from "../model/key.ts";
import { type RandomBytes, randomBytes, toHex } from "./random.ts";

/** Says what is hashed, so that no hash made for another purpose can pass for a commitment. */
const domainTag = "cloche commitment to a key, v1";

/**
 * The commitment to a key: SHA-256 over a tag, 32 random bytes and the canonical text of the key, as 64 hex digits.
 *
 * The random bytes are needed: a small key has few possible values, and a bare hash could be found by trying them
 * all. Computed without WebCrypto, so that a reader on plain HTTP can check it too.
 */
export const commitmentOf = (opened: OpenedKey): string => sha256(committedText(opened));

/** The very text that is hashed: for a reader who checks the commitment with another program. */
export const committedText = ({ key, salt }: OpenedKey): string => `${domainTag}\n${salt}\n${canonicalText(key)}`;

/** A key with fresh random bytes for its commitment. */
export const withSalt = (key: Key, random: RandomBytes = randomBytes): OpenedKey => ({ key, salt: toHex(random(32)) });
