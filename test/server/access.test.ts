import { randomUUID } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { EnrollReply } from "../../src/model/http.ts";
import type { ProblemCode } from "../../src/model/problem.ts";
import { access, type RouteName } from "../../src/server/access.ts";
import { makeApp } from "../../src/server/app.ts";
import { statusOf } from "../../src/server/status-of.ts";
import { problems } from "../../src/words/en/problems.ts";
import { claimOf } from "../log/claim-example.ts";
import { House, problemCode } from "./house.ts";
import { Pen } from "./pen.ts";

const own = randomUUID();
const revealed = randomUUID();
const missing = randomUUID();
const claim = randomUUID();
const claimBody = { base: null, merged: [], claim: claimOf(), known: [] };
const nobody = { token: "x".repeat(43) };
type Who = "none" | "wrong" | "revoked" | "panel" | "kitchen" | "reader" | "lead";
const everybody: Who[] = ["none", "wrong", "revoked", "panel", "kitchen", "reader", "lead"];

let house: House;
const tokens = new Map<Who, { token: string }>();
let target: EnrollReply;

beforeAll(async () => {
  house = await House.open();
  const lead = await house.lead();
  const pen = new Pen(lead.device);
  await house.push(lead, [
    pen.lock(own).text,
    pen.lock(revealed).text,
    pen.close(revealed).text,
    pen.reveal(revealed).text,
    pen.raw("", 1, "claim-saved", claimBody, { stream: { kind: "claim", id: claim } }),
  ]);
  tokens.set("lead", lead);
  tokens.set("panel", await house.device(lead, "panel", own));
  tokens.set("kitchen", await house.device(lead, "kitchen"));
  tokens.set("reader", await house.device(lead, "reader"));
  tokens.set("wrong", nobody);
  target = await house.device(lead, "panel", own);
  tokens.set("revoked", target);
  await house.call("POST", `/api/devices/${target.device}`, { token: lead.token, body: { revoked: true } });
});
afterAll(() => house.close());

const push = { events: [], attachments: [], status: null };
const code = { role: "panel", study: null, name: "" };

/** What each role gets, route by route. Written by hand from the design's table of roles, not from the code. */
const matrix: { name: RouteName; path: string; body?: unknown; status: Record<Who, number> }[] = [
  row("GET /api/hello", "/api/hello", undefined, [200, 200, 200, 200, 200, 200, 200]),
  row("POST /api/enroll", "/api/enroll", { code: "7K3M-9QXD", name: "" }, [403, 403, 403, 403, 403, 403, 403]),
  row("POST /api/codes", "/api/codes", code, [401, 401, 401, 403, 403, 403, 200]),
  row("POST /api/events", "/api/events", push, [401, 401, 401, 200, 200, 200, 200]),
  row("GET /api/panel", "/api/panel", undefined, [401, 401, 401, 200, 403, 403, 403]),
  row("GET /api/studies", "/api/studies", undefined, [401, 401, 401, 403, 200, 200, 200]),
  row("GET /api/studies/:id/events", `/api/studies/${own}/events`, undefined, [401, 401, 401, 403, 200, 404, 200]),
  row("GET /api/studies/:id/events", `/api/studies/${revealed}/events`, undefined, [401, 401, 401, 403, 404, 200, 200]),
  row("GET /api/studies/:id/events", `/api/studies/${missing}/events`, undefined, [401, 401, 401, 403, 404, 404, 404]),
  row("GET /api/studies/:id/events", "/api/studies/x/events", undefined, [401, 401, 401, 403, 404, 404, 404]),
  row("GET /api/studies/:id/calls", `/api/studies/${own}/calls`, undefined, [401, 401, 401, 403, 200, 403, 200]),
  row("GET /api/studies/:id/calls", `/api/studies/${revealed}/calls`, undefined, [401, 401, 401, 403, 404, 403, 200]),
  row("GET /api/studies/:id/remarks", `/api/studies/${own}/remarks`, undefined, [401, 401, 401, 403, 403, 403, 403]),
  row(
    "GET /api/studies/:id/remarks",
    `/api/studies/${revealed}/remarks`,
    undefined,
    [401, 401, 401, 403, 403, 403, 200],
  ),
  row(
    "GET /api/studies/:id/remarks",
    `/api/studies/${missing}/remarks`,
    undefined,
    [401, 401, 401, 403, 403, 403, 404],
  ),
  row(
    "GET /api/studies/:id/looks/:look",
    `/api/studies/${own}/looks/${missing}`,
    undefined,
    [401, 401, 401, 403, 403, 403, 404],
  ),
  row("GET /api/kitchen/events", "/api/kitchen/events", undefined, [401, 401, 401, 403, 403, 403, 200]),
  row("GET /api/claims", "/api/claims", undefined, [401, 401, 401, 403, 403, 403, 200]),
  row("GET /api/claims/:id/events", `/api/claims/${claim}/events`, undefined, [401, 401, 401, 403, 403, 403, 200]),
  row("GET /api/claims/:id/events", `/api/claims/${missing}/events`, undefined, [401, 401, 401, 403, 403, 403, 404]),
  row("GET /api/claims/:id/events", "/api/claims/x/events", undefined, [401, 401, 401, 403, 403, 403, 404]),
  row("GET /api/addresses", "/api/addresses", undefined, [401, 401, 401, 403, 403, 403, 200]),
  row("GET /api/devices", "/api/devices", undefined, [401, 401, 401, 403, 403, 403, 200]),
  row("POST /api/devices/:id", `/api/devices/${missing}`, {}, [401, 401, 401, 403, 403, 403, 404]),
  row("POST /api/renew", "/api/renew", {}, [401, 401, 401, 200, 200, 200, 200]),
];

function row(name: RouteName, path: string, body: unknown, statuses: number[]) {
  const status = Object.fromEntries(everybody.map((who, index) => [who, statuses[index]])) as Record<Who, number>;
  return { name, path, body, status };
}

describe("G6 H15 role matrix", () => {
  for (const { name, path, body, status } of matrix) {
    for (const who of everybody) {
      test(`${who}: ${name.split(" ")[0]} ${path.replaceAll(/[0-9a-f-]{36}/g, (id) => nameOf(id))} gives ${status[who]}`, async () => {
        const token = tokens.get(who)?.token;
        const reply = await house.call(name.split(" ")[0] ?? "", path, {
          ...(token === undefined ? {} : { token }),
          ...(body === undefined ? {} : { body }),
        });
        expect(reply.status).toBe(status[who]);
        expect(reply.headers.get("cache-control")).toBe("no-store");
        if (status[who] === 401) expect(problemCode(reply)).toBe("access/not-enrolled");
      });
    }
  }

  test("every route of the API is in the matrix", () => {
    expect([...new Set(matrix.map(({ name }) => name))].sort()).toEqual(Object.keys(access).sort());
  });

  test("a route of the API that is not in the table of roles does not start", async () => {
    const parts = { store: house.store, now: () => house.clock, staticFolder: null, log: false, tls: null } as const;
    const app = await makeApp(parts);
    expect(() => app.get("/api/backdoor", async () => "open")).toThrow("/api/backdoor");
    await app.close();
  });
});

const nameOf = (id: string) =>
  id === claim
    ? "claim"
    : id === own
      ? "unrevealed study"
      : id === revealed
        ? "revealed study"
        : id === missing
          ? "nothing"
          : id;

test("G7 a study that may not be seen and one that does not exist get replies of one shape", async () => {
  const token = tokens.get("reader")?.token ?? "";
  const [hidden, absent] = await Promise.all(
    [own, missing].map((id) => house.call("GET", `/api/studies/${id}/events`, { token })),
  );
  expect(hidden?.status).toBe(absent?.status);
  expect(hidden?.text.length).toBe(absent?.text.length);
  const shape = (reply: typeof hidden) => ({ ...(reply?.json as object), errorId: "" });
  expect(shape(hidden)).toEqual(shape(absent));
  const headers = (reply: typeof hidden) => [...(reply?.headers ?? [])].filter(([name]) => name !== "date");
  expect(headers(hidden)).toEqual(headers(absent));
});

test("every problem has a status from 400 to 599", () => {
  const codes = Object.keys(problems) as ProblemCode[];
  expect(codes.length).toBeGreaterThan(50);
  for (const code of codes) {
    expect(statusOf(code), code).toBeGreaterThanOrEqual(400);
    expect(statusOf(code), code).toBeLessThan(600);
  }
});
