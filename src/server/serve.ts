import type { FastifyInstance, FastifyReply, FastifyRequest, RouteShorthandOptions } from "fastify";
import * as z from "zod/mini";
import type { Role } from "../model/http.ts";
import { problem } from "../model/problem.ts";
import { access, type RouteName } from "./access.ts";
import type { Presence } from "./presence.ts";
import type { Caller } from "./query/devices.ts";
import { callerByToken } from "./query/devices.ts";
import type { Store } from "./query/store.ts";
import { hashOf } from "./secret.ts";

declare module "fastify" {
  interface FastifyRequest {
    caller: Caller | null;
  }
  interface FastifyContextConfig {
    access?: "anyone" | readonly Role[];
  }
}

/** What routes need. `now` is the injected clock: milliseconds since 1970. */
export type House = { store: Store; now: () => number; presence: Presence; addresses: () => string[] };

export const instantOf = (ms: number): string => new Date(ms).toISOString();

/** Checks token and role before anything of a request is read. */
export function checkCallers(app: FastifyInstance, { store }: House): void {
  app.decorateRequest("caller", null);
  app.addHook("onRoute", ({ url, config }) => {
    if (url.startsWith("/api") && config?.access === undefined) throw new Error(`nobody may call ${url} yet`);
  });
  app.addHook("onRequest", async (request) => {
    const allowed = request.routeOptions.config.access;
    if (allowed === undefined || allowed === "anyone") return;
    const token = /^Bearer ([\w-]{43})$/.exec(request.headers.authorization ?? "")?.[1];
    const caller = token === undefined ? null : await callerByToken(store.db, hashOf("token", token));
    if (!caller) throw problem("access/not-enrolled");
    if (!allowed.includes(caller.role)) throw problem("access/not-allowed");
    request.caller = caller;
  });
}

/** The caller of a route that is not open to anyone. */
export function callerOf(request: FastifyRequest): Caller {
  if (!request.caller) throw problem("access/not-enrolled");
  return request.caller;
}

/**
 * Adds a route of the API. Who may call it stands in `access`; what it returns must fit `reply` to the last field.
 */
export function serve<T>(
  app: FastifyInstance,
  name: RouteName,
  reply: z.ZodMiniType<T>,
  handle: (request: FastifyRequest, reply: FastifyReply) => Promise<T>,
  options: RouteShorthandOptions["config"] = {},
): void {
  const [method, url] = name.split(" ") as ["GET" | "POST", string];
  app.route({
    method,
    url,
    config: { ...options, access: access[name] },
    handler: async (request, response) => leave(reply, await handle(request, response)),
  });
}

/**
 * The exit. A reply that has a field too many, or one that does not fit, is not sent: 500, and the log tells.
 * Schemas of replies are strict, so whatever is added by mistake on the way stays inside.
 */
function leave<T>(schema: z.ZodMiniType<T>, value: T): T {
  const parsed = z.safeParse(schema, value);
  if (!parsed.success) {
    const where = parsed.error.issues.map((issue) => issue.path.join(".")).join(", ");
    throw new Error(`the reply does not fit its schema at: ${where || "the top"}`);
  }
  return parsed.data;
}
