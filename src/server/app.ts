import type { ServerOptions } from "node:https";
import Fastify, { type FastifyInstance, type FastifyServerOptions } from "fastify";
import { limits } from "../model/http.ts";
import { answerFailures } from "./fail.ts";
import { guard } from "./guard.ts";
import { Presence } from "./presence.ts";
import { readOneRow, type Store } from "./query/store.ts";
import { claimRoutes } from "./routes/claims.ts";
import { deviceRoutes } from "./routes/devices.ts";
import { enrollRoutes } from "./routes/enroll.ts";
import { eventRoutes } from "./routes/events.ts";
import { kitchenRoutes } from "./routes/kitchen.ts";
import { lookRoutes } from "./routes/looks.ts";
import { panelRoutes } from "./routes/panel.ts";
import { studyRoutes } from "./routes/studies.ts";
import { checkCallers, type House } from "./serve.ts";
import { serveApp } from "./static.ts";

export type AppParts = {
  store: Store;
  /** Milliseconds since 1970. */
  now: () => number;
  /** Folder of the built app; null serves the API alone. */
  staticFolder: string | null;
  /** Where the log goes and from which level on; false: nowhere. */
  log: { level: string; stream: NodeJS.WritableStream } | false;
  /** Certificate and key; null: plain http. */
  tls: Pick<ServerOptions, "cert" | "key"> | null;
  /** Where other devices of the network reach this server, best first; asked anew each time. Left out: nowhere. */
  addresses?: () => string[];
};

const presenceMs = 30_000;
const headerLimits = { headersTimeout: 10_000, maxHeaderSize: 16_384 };

/** The whole server as a Fastify app that does not listen yet. Closing it does not close the store. */
export async function makeApp(parts: AppParts): Promise<FastifyInstance> {
  const { store, now, staticFolder } = parts;
  const app = makeFastify(parts);
  const presence = new Presence(now);
  const house: House = { store, now, presence, addresses: parts.addresses ?? (() => []) };
  answerFailures(app);
  await guard(app);
  checkCallers(app, house);
  enrollRoutes(app, house);
  eventRoutes(app, house);
  panelRoutes(app, house);
  studyRoutes(app, house);
  lookRoutes(app, house);
  kitchenRoutes(app, house);
  claimRoutes(app, house);
  deviceRoutes(app, house);
  app.get("/healthz", async () => {
    await readOneRow(store.db);
    return { ok: true };
  });
  if (staticFolder !== null) await serveApp(app, staticFolder);

  const timer = setInterval(() => {
    presence.flush(store.db).catch((error: unknown) => app.log.error({ err: error }, "presence not written"));
  }, presenceMs);
  timer.unref();
  app.addHook("onClose", async () => {
    clearInterval(timer);
    await presence.flush(store.db);
  });
  return app;
}

function makeFastify({ log, tls }: AppParts): FastifyInstance {
  const options: FastifyServerOptions = {
    bodyLimit: limits.bodyBytes,
    requestTimeout: 30_000, // headers and body of one request
    keepAliveTimeout: 20_000,
    connectionTimeout: 60_000, // a socket on which nothing moves
    routerOptions: { maxParamLength: 200 },
    forceCloseConnections: "idle",
    logger: log && { ...log, serializers: { req: requestLine, res: (reply) => ({ status: reply.statusCode }) } },
    ...(tls ? { https: { ...tls, ...headerLimits } } : { http: headerLimits }),
  } as FastifyServerOptions;
  const app = Fastify(options) as FastifyInstance;
  app.server.maxConnections = 2000;
  return app;
}

/** What the log says of a request: no headers, no query, no ids, no body. */
const requestLine = (request: { method: string; routeOptions?: { url?: string | undefined }; ip: string }) => ({
  method: request.method,
  route: request.routeOptions?.url ?? "none",
  address: request.ip,
});
