import { sha256 as digest } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";

/**
 * Canonical JSON text (RFC 8785) of a value: one text per value, so that a hash of it means something.
 *
 * Takes   any JSON value; strings are made well-formed first, since a lone surrogate has no UTF-8 form
 * Throws  TypeError when the value has no JSON form (undefined, a function, NaN)
 */
export function canonicalText(value: unknown): string {
  const text = canonicalize(wellFormed(value));
  if (text === undefined) throw new TypeError("value has no JSON form");
  return text;
}

/** SHA-256 of the UTF-8 bytes of a text, as 64 lowercase hex digits (FIPS 180-4). Synchronous: an IndexedDB
 * transaction does not survive waiting for WebCrypto in every browser, and plain HTTP has no WebCrypto. */
export function sha256(text: string): string {
  return bytesToHex(digest(utf8ToBytes(text)));
}

function wellFormed(value: unknown): unknown {
  if (typeof value === "string") return toWellFormed(value);
  if (Array.isArray(value)) return value.map(wellFormed);
  if (value !== null && typeof value === "object") {
    return Object.fromEntries(
      Object.entries(value)
        .filter(([, v]) => v !== undefined)
        .map(([k, v]) => [toWellFormed(k), wellFormed(v)]),
    );
  }
  return value;
}

/** String.prototype.toWellFormed, for browsers older than 2023. */
function toWellFormed(text: string): string {
  return text.replace(/[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g, "\uFFFD");
}
