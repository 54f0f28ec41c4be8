import { createHash, randomBytes } from "node:crypto";

/** Crockford's base 32: no I, L, O or U, so that a code read aloud or from paper has one spelling. */
const alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** A device's token: 256 random bits, base64url. Only `hashOf` it is stored. */
export const newToken = (): string => randomBytes(32).toString("base64url");

/**
 * A one-time code to type, in groups of four: "7K3M-9QXD".
 * Takes the number of groups; each carries 20 random bits, so two carry 40 (five bits a letter, no bias: 32 letters).
 */
export function newCode(groups = 2): string {
  const letters = [...randomBytes(groups * 4)].map((byte) => alphabet.charAt(byte % 32)).join("");
  return (letters.match(/.{4}/g) ?? []).join("-");
}

/** What a code is, however it was typed: case, spaces and dashes do not matter, O is 0, I and L are 1. */
export function plainCode(typed: string): string {
  return typed
    .toUpperCase()
    .replace(/[\s\-–_.]/g, "")
    .replace(/O/g, "0")
    .replace(/[IL]/g, "1");
}

/** SHA-256 of a secret with its purpose, so that a code's hash can never be taken for a token's. */
export const hashOf = (purpose: "token" | "code", secret: string): string =>
  createHash("sha256").update(`cloche ${purpose}\n${secret}`).digest("hex");

/** A short random name for one failed request: what a person reads out and what the log has. */
export function newErrorId(): string {
  return newCode(2);
}
