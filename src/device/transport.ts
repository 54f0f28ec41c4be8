import * as z from "zod/mini";
import type { PushOutcome, Transport } from "../log/outbox.ts";
import { problemReply, pushReply } from "../model/http-device.ts";
import { Problem, type ProblemData, problem } from "../model/problem.ts";

type Fetch = (input: string, init: RequestInit) => Promise<Response>;

/** A failed call: the problem, and how long the server asked to wait. */
export type CallOutcome<T> =
  | { ok: true; reply: T }
  | { ok: false; problem: ProblemData; retryAfterSeconds: number | null };

/**
 * One call to the server. A reply counts only when it has status 200, is JSON and fits the schema: a captive portal,
 * a proxy's page or a cut reply is a failure, never an answer.
 */
export async function call<T>(
  fetcher: Fetch,
  schema: z.ZodMiniType<T>,
  path: string,
  options: { token?: string | undefined; body?: unknown; timeoutMs?: number } = {},
): Promise<CallOutcome<T>> {
  let response: Response;
  let text: string;
  try {
    response = await fetcher(path, {
      method: options.body === undefined ? "GET" : "POST",
      headers: {
        ...(options.body === undefined ? {} : { "content-type": "application/json" }),
        ...(options.token ? { authorization: `Bearer ${options.token}` } : {}),
      },
      ...(options.body === undefined ? {} : { body: JSON.stringify(options.body) }),
      cache: "no-store",
      credentials: "same-origin",
      redirect: "manual",
      signal: AbortSignal.timeout(options.timeoutMs ?? 20_000),
    });
    text = await response.text();
  } catch {
    return failure(problem("server/unreachable"));
  }
  const json = response.headers.get("content-type")?.startsWith("application/json") ? parse(text) : undefined;
  const wait = Number(response.headers.get("retry-after")) || null;
  if (response.status !== 200) return failure(refusal(response.status, json), wait);
  const parsed = z.safeParse(schema, json);
  if (parsed.success) return { ok: true, reply: parsed.data };
  return failure(problem("server/not-cloche", { reason: "its reply has another form" }));
}

/** The transport of the outbox over HTTP. */
export const httpTransport = (fetcher: Fetch, token: string): Transport => ({
  push: (request): Promise<PushOutcome> => call(fetcher, pushReply, "/api/events", { token, body: request }),
});

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function refusal(status: number, json: unknown): Problem {
  const parsed = z.safeParse(problemReply, json);
  if (parsed.success)
    return new Problem({ code: parsed.data.code, details: parsed.data.details } as unknown as ProblemData);
  return problem("server/not-cloche", { reason: `status ${status}` });
}

function failure(thrown: Problem, retryAfterSeconds: number | null = null) {
  return { ok: false as const, problem: thrown.problem, retryAfterSeconds };
}
