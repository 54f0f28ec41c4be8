import { X509Certificate } from "node:crypto";
import { readFileSync } from "node:fs";
import { createSecureContext } from "node:tls";
import { problem } from "../../model/problem.ts";

export type Tls = { cert: string; key: string };

const dayMs = 24 * 3600 * 1000;

/**
 * Reads a certificate chain and its key, and checks that they belong together.
 * Throws Problem "start/certificate" naming the file at fault.
 */
export function readCertificate(certPath: string, keyPath: string): Tls {
  const cert = readPem(certPath);
  const key = readPem(keyPath);
  try {
    createSecureContext({ cert });
  } catch (error) {
    throw problem("start/certificate", { path: certPath, reason: reasonOf(error) });
  }
  try {
    createSecureContext({ cert, key });
  } catch (error) {
    throw problem("start/certificate", { path: keyPath, reason: reasonOf(error) });
  }
  return { cert, key };
}

/** Whole days until the certificate ends; negative when it has. */
export function daysLeft(cert: string, now: number): number {
  return Math.floor((Date.parse(new X509Certificate(cert).validTo) - now) / dayMs);
}

function readPem(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch (error) {
    throw problem("start/certificate", { path, reason: reasonOf(error) });
  }
}

function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  if ("code" in error && error.code === "ENOENT") return "there is no such file";
  if ("code" in error && error.code === "EACCES") return "it may not be read";
  if ("code" in error && error.code === "ERR_OSSL_X509_KEY_VALUES_MISMATCH")
    return "key and certificate do not belong together";
  return "reason" in error && typeof error.reason === "string" ? error.reason : error.message;
}
