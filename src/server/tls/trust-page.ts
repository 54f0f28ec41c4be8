import { createServer, type Server, type ServerResponse } from "node:http";
import { trustWords } from "../../words/en/server.ts";
import type { LocalCa } from "./local-ca.ts";

/**
 * The plain http page that tells people how a device comes to trust the kitchen's own authority. It cannot be https:
 * nobody trusts that yet. It gives out the public part only; the fingerprint on the server's screen guards it.
 */
export function trustServer({ authority, fingerprint }: LocalCa, appAddresses: readonly string[]): Server {
  const page = pageOf(fingerprint, appAddresses);
  return createServer({ requestTimeout: 10_000, headersTimeout: 5000 }, (request, response) => {
    if (request.method !== "GET" && request.method !== "HEAD") return send(response, 404, "text/plain", "");
    if (request.url === "/") return send(response, 200, "text/html; charset=utf-8", page);
    if (request.url === "/cloche-ca.crt") return send(response, 200, "application/x-x509-ca-cert", authority);
    return send(response, 404, "text/plain", "");
  });
}

function send(response: ServerResponse, status: number, type: string, body: string): void {
  response.writeHead(status, {
    "content-type": type,
    "content-length": Buffer.byteLength(body),
    "cache-control": "no-store",
    "x-content-type-options": "nosniff",
    "content-security-policy": "default-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'none'",
  });
  response.end(body);
}

function pageOf(fingerprint: string, appAddresses: readonly string[]): string {
  const words = trustWords;
  const steps = words.steps.map(
    ({ device, lines }) =>
      `<h2>${escaped(device)}</h2><ol>${lines.map((line) => `<li>${escaped(line)}</li>`).join("")}</ol>`,
  );
  const links = appAddresses.map((address) => `<li><a href="${escaped(address)}">${escaped(address)}</a></li>`);
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>${escaped(words.title)}</title></head><body>
<h1>${escaped(words.title)}</h1>
<p>${escaped(words.intro)}</p>
<p>${escaped(words.fingerprint)}</p>
<p><code>${escaped(fingerprint)}</code></p>
<p><a href="/cloche-ca.crt" download="cloche-ca.crt">${escaped(words.download)}</a></p>
${steps.join("\n")}
<h2>${escaped(words.afterwards)}</h2><ul>${links.join("")}</ul>
</body></html>
`;
}

const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (c) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" })[c] ?? c);
