import { type Role, roles } from "../model/http.ts";

/** Who may call what. A route of the API that is not in this table does not start; the test matrix is made from it. */
export const access = {
  "GET /api/hello": "anyone",
  "POST /api/enroll": "anyone",
  "POST /api/codes": ["lead"],
  "POST /api/events": roles, // what each may say is judged event by event
  "GET /api/panel": ["panel"],
  // a reader: revealed ones only; the kitchen: locked ones until then, without key and answers
  "GET /api/studies": ["lead", "kitchen", "reader"],
  "GET /api/studies/:id/events": ["lead", "kitchen", "reader"],
  "GET /api/studies/:id/calls": ["lead", "kitchen"], // which tablets ask for somebody
  "GET /api/studies/:id/looks/:look": ["lead"], // by its own event, where the locked plan has a stopping rule
  "GET /api/studies/:id/remarks": ["lead"],
  "GET /api/kitchen/events": ["lead"], // nothing of it is any other device's business
  "GET /api/claims": ["lead"], // what people expect to be found
  "GET /api/claims/:id/events": ["lead"],
  "GET /api/addresses": ["lead"],
  "GET /api/devices": ["lead"],
  "POST /api/devices/:id": ["lead"],
  "POST /api/renew": roles,
} as const satisfies Record<string, "anyone" | readonly Role[]>;

export type RouteName = keyof typeof access;
