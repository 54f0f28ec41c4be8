import type { Ask } from "../demo/load.ts";
import { problemReply } from "../model/http.ts";
import { Problem, type ProblemData } from "../model/problem.ts";
import { misfit, read } from "../model/schema.ts";

/** Calls to a server at an address, without cookies: what the server refuses comes back as its Problem. */
export function askOf(origin: string): Ask {
  return async (schema, path, { token, body }) => {
    const response = await fetch(`${origin}${path}`, {
      method: body === undefined ? "GET" : "POST",
      headers: {
        ...(body === undefined ? {} : { "content-type": "application/json" }),
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const reply: unknown = await response.json();
    if (response.ok) return read(schema, reply);
    if (misfit(problemReply, reply)) throw new Error(`${path}: ${response.status}`);
    const { code, details } = reply as { code: string; details: object };
    throw new Problem({ code, details } as unknown as ProblemData);
  };
}
