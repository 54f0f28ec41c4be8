import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import { limits } from "../model/http.ts";
import { Problem, type ProblemData, problem } from "../model/problem.ts";
import { storageProblem } from "./query/sqlite.ts";
import { newErrorId } from "./secret.ts";
import { statusOf } from "./status-of.ts";

/** Makes every failure of the API one reply, `{ code, details, errorId }`, and one line in the log under that id. */
export function answerFailures(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError, request, reply) => sendFailure(error, request, reply));
  app.setNotFoundHandler((request, reply) => sendFailure(problem("access/not-found"), request, reply));
}

function sendFailure(error: Error, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const errorId = newErrorId();
  const found = problemOf(error, errorId);
  const status = statusOf(found.code);
  const line = { errorId, code: found.code, method: request.method, route: request.routeOptions.url ?? "none" };
  // the error itself goes into the log only when it is a fault of ours: a caller's may quote what the caller sent
  if (status >= 500) request.log.error({ ...line, err: error }, "failed");
  else request.log.info(line, "refused");
  if (found.code === "request/too-many" || found.code === "enroll/locked-out") {
    reply.header("retry-after", found.details.seconds);
  }
  if (found.code === "server/busy") reply.header("retry-after", 2);
  return reply
    .code(status)
    .header("cache-control", "no-store")
    .type("application/json; charset=utf-8")
    .send(JSON.stringify({ ...found, errorId }));
}

function problemOf(error: Error & { code?: unknown; statusCode?: unknown }, errorId: string): ProblemData {
  const known = error instanceof Problem ? error : storageProblem(error);
  if (known) {
    // a path of the server is nobody's business outside
    return known.problem.code.startsWith("start/") ? problem("server/internal", { errorId }).problem : known.problem;
  }
  if (error.code === "FST_ERR_CTP_BODY_TOO_LARGE") {
    return problem("request/too-large", { limit: `${limits.bodyBytes / 1024} KiB` }).problem;
  }
  if (error.code === "FST_ERR_CTP_INVALID_MEDIA_TYPE") {
    return problem("request/invalid", { where: "Content-Type", expected: "application/json" }).problem;
  }
  const status = typeof error.statusCode === "number" ? error.statusCode : 500;
  if (status >= 400 && status < 500) {
    return problem("request/invalid", { where: "the whole document", expected: "valid JSON" }).problem;
  }
  return problem("server/internal", { errorId }).problem;
}
