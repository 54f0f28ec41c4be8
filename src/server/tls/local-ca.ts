import { createPrivateKey, X509Certificate } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { isIP } from "node:net";
import { join } from "node:path";
import { generate } from "selfsigned";
import { problem } from "../../model/problem.ts";
import { daysLeft, type Tls } from "./certificate.ts";

/** A certificate authority of the kitchen's own, and what it signed for this server. */
export type LocalCa = {
  tls: Tls;
  /** The authority's certificate, the public part: what tablets install. */
  authority: string;
  /** "AB:CD:…", SHA-256. */
  fingerprint: string;
  /** A new authority was made: devices must trust it (anew). */
  made: boolean;
};

const dayMs = 24 * 3600 * 1000;
const authorityDays = 3650;
/** Apple's devices accept at most 825 days from an authority that the user added (from memory); a year is enough. */
const serverDays = 397;
const renewDays = 14;

/**
 * The local authority of a data folder, made on first use, and a server certificate for the given hosts, made anew
 * when a host is missing from it or it ends within 14 days.
 *
 * Takes    folder: of the data; hosts: names and IP addresses beyond localhost; now: milliseconds since 1970
 * Throws   Problem "start/certificate" when the kept files cannot be used
 */
export async function localCa(folder: string, hosts: readonly string[], now: number): Promise<LocalCa> {
  const place = join(folder, "tls");
  mkdirSync(place, { recursive: true, mode: 0o700 });
  const caPaths = { cert: join(place, "authority.pem"), key: join(place, "authority-key.pem") };
  const serverPaths = { cert: join(place, "server.pem"), key: join(place, "server-key.pem") };
  const wanted = [...new Set(["localhost", "127.0.0.1", "::1", ...hosts])];

  let authority = readPair(caPaths);
  const made = authority === null || daysLeft(authority.cert, now) < renewDays;
  if (authority === null || made) {
    authority = await makeAuthority(now);
    writePair(caPaths, authority);
  }
  let server = readPair(serverPaths);
  if (server === null || !stillFits(server, authority, wanted, now)) {
    server = await makeServer(authority, wanted, now);
    writePair(serverPaths, server);
  }
  const fingerprint = new X509Certificate(authority.cert).fingerprint256;
  return { tls: server, authority: authority.cert, fingerprint, made };
}

function stillFits(server: Tls, authority: Tls, wanted: readonly string[], now: number): boolean {
  const cert = new X509Certificate(server.cert);
  return (
    cert.verify(new X509Certificate(authority.cert).publicKey) &&
    daysLeft(server.cert, now) >= renewDays &&
    wanted.every((host) => (isIP(host) ? cert.checkIP(host) : cert.checkHost(host)) !== undefined)
  );
}

async function makeAuthority(now: number): Promise<Tls> {
  const made = await generate([{ name: "commonName", value: "Cloche kitchen authority" }], {
    ...common(now, authorityDays),
    extensions: [
      { name: "basicConstraints", cA: true, pathLenConstraint: 0, critical: true },
      { name: "keyUsage", keyCertSign: true, cRLSign: true, critical: true },
    ],
  });
  return { cert: made.cert, key: made.private };
}

async function makeServer(authority: Tls, hosts: readonly string[], now: number): Promise<Tls> {
  const days = Math.min(serverDays, daysLeft(authority.cert, now));
  const made = await generate([{ name: "commonName", value: "Cloche server" }], {
    ...common(now, days),
    ca: authority,
    extensions: [
      { name: "basicConstraints", cA: false, critical: true },
      { name: "keyUsage", digitalSignature: true, critical: true },
      { name: "extKeyUsage", serverAuth: true },
      {
        name: "subjectAltName",
        altNames: hosts.map((host) => (isIP(host) ? { type: 7, ip: host } : { type: 2, value: host })),
      },
    ],
  });
  return { cert: made.cert, key: made.private };
}

/** Elliptic keys sign with SHA-1 here unless told otherwise. Valid from yesterday: clocks of tablets are off. */
const common = (now: number, days: number) =>
  ({
    keyType: "ec",
    curve: "P-256",
    algorithm: "sha256",
    notBeforeDate: new Date(now - dayMs),
    notAfterDate: new Date(now + days * dayMs),
  }) as const;

type Paths = { cert: string; key: string };

function readPair(paths: Paths): Tls | null {
  if (!existsSync(paths.cert) || !existsSync(paths.key)) return null;
  try {
    const pair = { cert: readFileSync(paths.cert, "utf8"), key: readFileSync(paths.key, "utf8") };
    if (!new X509Certificate(pair.cert).checkPrivateKey(createPrivateKey(pair.key))) throw new Error("key mismatch");
    return pair;
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw problem("start/certificate", { path: paths.cert, reason });
  }
}

/** The key first and whole, so that a crash in between leaves no certificate without its key. */
function writePair(paths: Paths, { cert, key }: Tls): void {
  writeWhole(paths.key, key, 0o600);
  writeWhole(paths.cert, cert, 0o644);
}

function writeWhole(path: string, content: string, mode: number): void {
  writeFileSync(`${path}.new`, content, { mode });
  renameSync(`${path}.new`, path);
}
