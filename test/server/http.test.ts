import { randomUUID } from "node:crypto";
import { request } from "node:http";
import { gzipSync } from "node:zlib";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { EnrollReply } from "../../src/model/http.ts";
import { House, problemCode, type Reply } from "./house.ts";
import { Pen } from "./pen.ts";

let house: House;
let lead: EnrollReply;
beforeAll(async () => {
  house = await House.open();
  lead = await house.lead();
});
afterAll(() => house.close());

const pushBody = { events: [], attachments: [], status: null };

/** A request whose path is sent as it is: fetch would tidy it. */
function rawGet(path: string): Promise<{ status: number; text: string }> {
  const { hostname, port } = new URL(house.origin);
  return new Promise((done, failed) => {
    const sent = request({ hostname, port, path, method: "GET" }, (response) => {
      let text = "";
      response.on("data", (chunk) => {
        text += chunk;
      });
      response.on("end", () => done({ status: response.statusCode ?? 0, text }));
    });
    sent.on("error", failed);
    sent.end();
  });
}

describe("H4 calls from another site change nothing", () => {
  const body = { role: "panel", study: null, name: "" };
  const cases: [string, Record<string, string>, number, string][] = [
    ["another origin", { origin: "http://evil.test" }, 403, "request/cross-site"],
    ["a sandboxed page", { origin: "null" }, 403, "request/cross-site"],
    ["Sec-Fetch-Site: cross-site", { "sec-fetch-site": "cross-site" }, 403, "request/cross-site"],
    ["Sec-Fetch-Site: same-site", { "sec-fetch-site": "same-site" }, 403, "request/cross-site"],
    ["JSON as text/plain", { "content-type": "text/plain" }, 400, "request/invalid"],
    ["a form", { "content-type": "application/x-www-form-urlencoded" }, 400, "request/invalid"],
  ];
  for (const [what, headers, status, code] of cases) {
    test(what, async () => {
      const before = await house.store.db.selectFrom("codes").selectAll().execute();
      const reply = await house.call("POST", "/api/codes", { token: lead.token, body, headers });
      expect([reply.status, problemCode(reply)]).toEqual([status, code]);
      expect(reply.headers.get("access-control-allow-origin")).toBeNull();
      expect(await house.store.db.selectFrom("codes").selectAll().execute()).toEqual(before);
    });
  }

  test("the app's own calls and those of a terminal pass", async () => {
    for (const headers of [{ origin: house.origin, "sec-fetch-site": "same-origin" }, {}]) {
      expect((await house.call("POST", "/api/codes", { token: lead.token, body, headers })).status).toBe(200);
    }
  });
});

describe("H5 H6 bodies that nobody honest sends", () => {
  const send = (raw: string | Uint8Array, headers: Record<string, string> = {}) =>
    house.call("POST", "/api/events", { token: lead.token, raw, headers });
  const refused = (reply: Reply) => [reply.status, problemCode(reply)];

  test("cut, empty, wrong and unknown fields: 400", async () => {
    const bodies = ["{", "", "[]", "null", '"x"', "{}", JSON.stringify({ ...pushBody, more: 1 }), "1e999"];
    for (const body of bodies) expect(refused(await send(body)), body).toEqual([400, "request/invalid"]);
  });

  test("more than 1 MiB: 413, and the process goes on", async () => {
    const reply = await send(`{"events":["${"x".repeat(10_000_000)}"]}`).catch(() => null);
    // the server may close the connection before all of it is sent
    if (reply) expect(refused(reply)).toEqual([413, "request/too-large"]);
    expect((await house.call("GET", "/healthz")).status).toBe(200);
  });

  test("just above 1 MiB: 413", async () => {
    const reply = await send(JSON.stringify({ ...pushBody, events: ["x".repeat(1_048_576)] }));
    expect(refused(reply)).toEqual([413, "request/too-large"]);
  });

  test("__proto__ and constructor.prototype: 400", async () => {
    const tail = JSON.stringify(pushBody).slice(1);
    expect(refused(await send(`{"__proto__":{"events":[]},${tail}`))).toEqual([400, "request/invalid"]);
    expect(refused(await send(`{"constructor":{"prototype":{}},${tail}`))).toEqual([400, "request/invalid"]);
  });

  test("not UTF-8, or compressed: 400", async () => {
    const text = JSON.stringify({ ...pushBody, events: ["?"] });
    const bytes = Buffer.from(text);
    bytes[bytes.indexOf("?")] = 0xff;
    expect(refused(await send(bytes))).toEqual([400, "request/invalid"]);
    const bomb = gzipSync(JSON.stringify({ ...pushBody, events: ["0".repeat(20_000_000)] }));
    expect(refused(await send(bomb, { "content-encoding": "gzip" }))).toEqual([400, "request/invalid"]);
  });

  test("events nested 10,000 deep, with NUL, a lone surrogate, twice the same key or a huge number: no 5xx", async () => {
    const study = randomUUID();
    const sound = new Pen(lead.device).note(study).text;
    const nested = sound.replace('"reprint":false', `"reprint":${"[".repeat(10_000)}${"]".repeat(10_000)}`);
    const texts = [
      nested,
      `${sound}\u0000`,
      sound.replace("labels", "\ud800"),
      sound.replace('"seq":1', '"seq":1e400'),
      sound.replace('"seq":1', '"seq":1,"device":"x","device":"y"'),
      `[${"[".repeat(300_000)}`,
    ];
    const reply = await send(JSON.stringify({ ...pushBody, events: texts }));
    expect(reply.status).toBe(200);
    const verdicts = (reply.json as { verdicts: { verdict: string }[] }).verdicts.map(({ verdict }) => verdict);
    expect(verdicts).toEqual(["held", "refused", "refused", "refused", "refused", "refused"]);
    const page = await house.call("GET", `/api/studies/${study}/events`, { token: lead.token });
    expect(page.status).toBe(200);
  });

  test("any JSON at all as a body or as an event gets a 4xx or a verdict, never a 5xx", async () => {
    const seed = Date.now() % 2 ** 31;
    process.stdout.write(`H5 seed ${seed}\n`);
    const anyEvent = fc.oneof(fc.string({ unit: "binary" }), fc.json());
    await fc.assert(
      fc.asyncProperty(fc.json(), fc.array(anyEvent, { maxLength: 5 }), async (body, events) => {
        expect((await send(body)).status).toBe(400);
        const reply = await send(JSON.stringify({ ...pushBody, events }));
        expect(reply.status).toBe(200);
        const { verdicts } = reply.json as { verdicts: { verdict: string }[] };
        expect(verdicts.map(({ verdict }) => verdict)).toEqual(events.map(() => "refused"));
      }),
      { seed, numRuns: 100 },
    );
  });

  test("more than 500 events in one push: 400", async () => {
    expect(refused(await send(JSON.stringify({ ...pushBody, events: Array(501).fill("") })))).toEqual([
      400,
      "request/invalid",
    ]);
  });
});

test("H11 no path leads out of the built app", async () => {
  const paths = [
    "/../outside.txt",
    "/..%2foutside.txt",
    "/%2e%2e/outside.txt",
    "/assets/..%2f..%2foutside.txt",
    "/assets/%2e%2e/%2e%2e/outside.txt",
    "/..%5coutside.txt",
    "/assets/panel-3f2a.js%00.html",
    "//etc/passwd",
    "/%2fetc%2fpasswd",
    "/.vite/manifest.json",
    `/${house.folder}/outside.txt`,
  ];
  for (const path of paths) {
    const { status, text } = await rawGet(path);
    expect([400, 404], path).toContain(status);
    expect(text, path).not.toMatch(/^outside|root:/);
  }
});

test("H12 unknown paths and methods are a JSON 404, under /api and elsewhere; HEAD answers like GET", async () => {
  const calls: [string, string][] = [
    ["GET", "/api"],
    ["GET", "/api/"],
    ["GET", "/api/nothing"],
    ["DELETE", "/api/devices"],
    ["PUT", "/api/events"],
    ["OPTIONS", "/api/events"],
    ["GET", "/api/enroll"],
    ["GET", "/nothing"],
    ["POST", "/panel/"],
  ];
  for (const [method, path] of calls) {
    const reply = await house.call(method, path);
    expect([reply.status, problemCode(reply)], `${method} ${path}`).toEqual([404, "access/not-found"]);
    expect(reply.headers.get("content-type")).toBe("application/json; charset=utf-8");
    expect(Object.keys(reply.json as object).sort()).toEqual(["code", "details", "errorId"]);
  }
  expect((await house.call("HEAD", "/healthz")).status).toBe(200);
  expect((await house.call("HEAD", "/api/devices")).status).toBe(401);
});

test("H16 security headers stand on every reply: pages, files, API and failures", async () => {
  for (const path of ["/", "/panel/", "/assets/panel-3f2a.js", "/api/hello", "/api/nothing", "/healthz"]) {
    const { headers } = await house.call("GET", path);
    const policy = (headers.get("content-security-policy") ?? "").split(";").map((part) => part.trim());
    expect(policy.sort(), path).toEqual([
      "base-uri 'none'",
      "default-src 'self'",
      "form-action 'self'",
      "frame-ancestors 'none'",
      "img-src 'self' blob:",
      "object-src 'none'",
      "worker-src 'self'",
    ]);
    expect(headers.get("x-content-type-options"), path).toBe("nosniff");
    expect(headers.get("referrer-policy"), path).toBe("no-referrer");
    expect(headers.get("cross-origin-opener-policy"), path).toBe("same-origin");
    expect(headers.get("strict-transport-security"), path).toBeNull();
    expect(headers.get("x-powered-by"), path).toBeNull();
    if (path.startsWith("/api")) expect(headers.get("cache-control"), path).toBe("no-store");
  }
});

test("F10 pages, workers and manifests are asked for anew; files with a hash in their name are kept for a year", async () => {
  const cacheOf = async (path: string) => (await house.call("GET", path)).headers.get("cache-control");
  for (const path of ["/", "/panel/", "/organizer/", "/report/", "/panel/sw.js", "/panel/app.webmanifest"]) {
    expect(await cacheOf(path), path).toBe("no-cache");
  }
  expect(await cacheOf("/assets/panel-3f2a.js")).toBe("public, max-age=31536000, immutable");
  const page = await house.call("GET", "/panel/");
  expect([page.text, page.headers.get("content-type")]).toEqual([
    "<!doctype html><title>panel</title>",
    "text/html; charset=utf-8",
  ]);
  const redirect = await house.call("GET", "/panel");
  expect([redirect.status, redirect.headers.get("location")]).toEqual([308, "/panel/"]);
});

test("H3 the log of a busy server, at its most talkative, holds no token, no code, no id and no answer", async () => {
  const study = randomUUID();
  const code = await house.code(lead, "panel", study);
  const tablet = await house.enroll(code);
  const pen = new Pen(tablet.device);
  await house.push(tablet, [pen.answer(study, 1, "715").text]);
  await house.call("POST", "/api/enroll", { body: { code, name: "Tablet by the window" } });
  await house.call("GET", `/api/studies/${study}/events?token=${tablet.token}`, { token: lead.token });
  await house.call("GET", `/api/panel/${tablet.token}`, { token: tablet.token });
  await house.call("POST", "/api/events", { token: tablet.token, raw: `{"${tablet.token}` });
  expect(house.log).toContain('"route":"/api/events"');
  expect(house.log).toContain("request/invalid");
  const secrets = [tablet.token, lead.token, code, code.replace("-", ""), study, tablet.device, lead.device];
  for (const secret of [...secrets, "window", "choice", "authorization", "Bearer"]) {
    expect(house.log.includes(secret), secret).toBe(false);
  }
});

test("H14 an address that asks without end gets 429 and when to come back; the limit lets forty tablets ask twice a second", async () => {
  const ask = async () => house.app.inject({ method: "GET", url: "/api/hello", remoteAddress: "192.0.2.99" });
  const minuteOfFortyTablets = 40 * 2 * 60;
  for (let count = 0; count < minuteOfFortyTablets; count += 1) {
    const { statusCode } = await ask();
    if (statusCode !== 200) throw new Error(`request ${count} got ${statusCode}`);
  }
  let last = await ask();
  for (let count = 0; count < 10_000 && last.statusCode === 200; count += 1) last = await ask();
  expect(last.statusCode).toBe(429);
  expect(last.json()).toMatchObject({ code: "request/too-many" });
  expect(Number(last.headers["retry-after"])).toBeGreaterThan(0);
  const other = await house.app.inject({ method: "GET", url: "/api/hello", remoteAddress: "192.0.2.98" });
  expect(other.statusCode).toBe(200);
});
