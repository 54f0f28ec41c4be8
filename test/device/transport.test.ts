import { createServer, type RequestListener, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { afterEach, describe, expect, test } from "vitest";
import { httpTransport } from "../../src/device/transport.ts";

let server: Server | undefined;
afterEach(() => new Promise((done) => (server ? server.close(done) : done(undefined))));

async function answering(listener: RequestListener): Promise<(path: string, init: RequestInit) => Promise<Response>> {
  server = createServer(listener);
  await new Promise<void>((listening) => server?.listen(0, "127.0.0.1", listening));
  const { port } = server.address() as AddressInfo;
  return (path, init) => fetch(`http://127.0.0.1:${port}${path}`, init);
}

const push = { events: ["x"], attachments: [], status: null };
const good = {
  incarnation: "99999999-9999-4999-8999-999999999999",
  verdicts: [{ id: "e1", verdict: "stored" }],
  heads: { "study:s": 1 },
};
const json = { "content-type": "application/json" };

describe("C6: what is no acknowledgment", () => {
  const cases: [string, RequestListener][] = [
    [
      "a captive portal's page with status 200",
      (_q, r) => r.writeHead(200, { "content-type": "text/html" }).end("<h1>Welcome</h1>"),
    ],
    ["JSON of another form with status 200", (_q, r) => r.writeHead(200, json).end('{"ok":true}')],
    [
      "our own reply without its incarnation",
      (_q, r) => r.writeHead(200, json).end(JSON.stringify({ ...good, incarnation: undefined })),
    ],
    [
      "our own reply sent as text",
      (_q, r) => r.writeHead(200, { "content-type": "text/plain" }).end(JSON.stringify(good)),
    ],
    ["an empty reply with status 204", (_q, r) => r.writeHead(204).end()],
    ["a redirect to a log-in page", (_q, r) => r.writeHead(302, { location: "/login" }).end()],
    ["a proxy's 502", (_q, r) => r.writeHead(502, json).end(JSON.stringify(good))],
    [
      "a reply cut in the middle",
      (_q, r) => {
        r.writeHead(200, { ...json, "content-length": "500" });
        r.write(JSON.stringify(good), () => r.socket?.destroy());
      },
    ],
  ];
  test.each(cases)("%s", async (_name, listener) => {
    const fetcher = await answering(listener);
    const outcome = await httpTransport(fetcher, "token").push(push);
    expect(outcome).toMatchObject({ ok: false });
    expect(outcome.ok || outcome.problem.code).toMatch(/^server\/(not-cloche|unreachable)$/);
  });

  test("the very same reply with status 200 as JSON is one", async () => {
    const fetcher = await answering((_q, r) => r.writeHead(200, json).end(JSON.stringify(good)));
    expect(await httpTransport(fetcher, "token").push(push)).toEqual({ ok: true, reply: good });
  });
});

test("a server that is away is named so, and the wait it asked for is passed on", async () => {
  const away = await httpTransport(() => Promise.reject(new TypeError("refused")), "t").push(push);
  expect(away).toMatchObject({ ok: false, problem: { code: "server/unreachable" } });
  const fetcher = await answering((_q, r) =>
    r
      .writeHead(429, { ...json, "retry-after": "9" })
      .end(JSON.stringify({ code: "request/too-many", details: { seconds: 9 }, errorId: "x" })),
  );
  expect(await httpTransport(fetcher, "t").push(push)).toEqual({
    ok: false,
    problem: { code: "request/too-many", details: { seconds: 9 } },
    retryAfterSeconds: 9,
  });
});
