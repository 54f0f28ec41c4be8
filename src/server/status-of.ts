import type { ProblemCode } from "../model/problem.ts";

type Area = ProblemCode extends `${infer A}/${string}` ? A : never;

/** Status of a whole area of problems: everything that is the caller's mistake and has no status of its own below. */
const byArea = {
  analysis: 422,
  file: 422,
  csv: 422,
  cli: 400,
  plan: 422,
  lock: 409,
  key: 422,
  look: 409,
  tray: 422,
  device: 409,
  balance: 409,
  server: 500,
  request: 400,
  access: 403,
  enroll: 403,
  start: 500,
  demo: 409,
} as const satisfies Record<Area, number>;

const byCode: Partial<Record<ProblemCode, number>> = {
  "server/unreachable": 502,
  "server/not-cloche": 502,
  "server/busy": 503,
  "server/storage": 507,
  "request/too-large": 413,
  "request/too-many": 429,
  "request/cross-site": 403,
  "access/not-enrolled": 401,
  "access/not-found": 404,
  "enroll/locked-out": 429,
};

/** The one table from problem to HTTP status. An area without an entry does not compile. */
export function statusOf(code: ProblemCode): number {
  return byCode[code] ?? byArea[code.slice(0, code.indexOf("/")) as Area];
}
