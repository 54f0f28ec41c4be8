import helmet from "@fastify/helmet";
import rateLimit from "@fastify/rate-limit";
import type { FastifyInstance, FastifyRequest } from "fastify";
import { problem } from "../model/problem.ts";

/** Requests a minute from one address: forty tablets behind one router may each ask twice a second. */
const perMinute = 6000;

/**
 * What stands before every route: security headers, a limit per address, JSON only, and no call from another site.
 *
 * There is no HSTS: with a local certificate authority or plain http it would lock tablets out of a kitchen.
 */
export async function guard(app: FastifyInstance): Promise<void> {
  app.addHook("onRequest", async (request, reply) => {
    if (isApi(request)) reply.header("cache-control", "no-store");
  });
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
        formAction: ["'self'"],
        workerSrc: ["'self'"],
        // pictures that a page drew itself, on their way to becoming a file
        imgSrc: ["'self'", "blob:"],
      },
    },
    strictTransportSecurity: false,
    referrerPolicy: { policy: "no-referrer" },
    crossOriginOpenerPolicy: { policy: "same-origin" },
    xFrameOptions: { action: "deny" },
  });
  await app.register(rateLimit, {
    max: perMinute,
    timeWindow: 60_000,
    // counters in headers would differ from request to request: a tablet's replies depend on the study alone
    addHeaders: noCounters,
    addHeadersOnExceeding: noCounters,
    errorResponseBuilder: (_request, { ttl }) => problem("request/too-many", { seconds: Math.ceil(ttl / 1000) }),
  });
  app.addHook("onRequest", async (request) => {
    if (request.method !== "GET" && request.method !== "HEAD") refuseCrossSite(request);
  });
  parseJsonOnly(app);
}

/** A limit of its own for a route that guessing or flooding would aim at. */
export const limitOf = (max: number) => ({ rateLimit: { max, timeWindow: 60_000 } });

const noCounters = {
  "x-ratelimit-limit": false,
  "x-ratelimit-remaining": false,
  "x-ratelimit-reset": false,
  "retry-after": false, // the failure reply sets it
};

export const isApi = (request: FastifyRequest): boolean => request.url.startsWith("/api");

/** Tokens are in no cookie, so another site has no authority here; this refuses its calls all the same. */
function refuseCrossSite(request: FastifyRequest): void {
  const site = request.headers["sec-fetch-site"];
  if (site !== undefined && site !== "same-origin" && site !== "none") throw problem("request/cross-site");
  const { origin } = request.headers;
  if (origin !== undefined && hostOf(origin) !== request.headers.host) throw problem("request/cross-site");
}

function hostOf(origin: string): string | null {
  try {
    return new URL(origin).host;
  } catch {
    return null; // "null", as sandboxed pages send it
  }
}

function parseJsonOnly(app: FastifyInstance): void {
  const parse = app.getDefaultJsonParser("error", "error"); // a body with __proto__ in it is refused
  const utf8 = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  app.removeAllContentTypeParsers();
  app.addContentTypeParser("application/json", { parseAs: "buffer" }, (request, body, done) => {
    const encoding = request.headers["content-encoding"];
    if (encoding !== undefined && encoding !== "identity") {
      done(problem("request/invalid", { where: "Content-Encoding", expected: "none: bodies are not compressed" }));
      return;
    }
    let text: string;
    try {
      text = utf8.decode(body as Buffer);
    } catch {
      done(problem("request/invalid", { where: "the whole document", expected: "UTF-8 text" }));
      return;
    }
    void parse(request, text, done);
  });
}
