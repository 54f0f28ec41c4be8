import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import {
  codeReply,
  codeRequest,
  type EnrollReply,
  enrollReply,
  enrollRequest,
  helloReply,
  limits,
  type Role,
} from "../../model/http.ts";
import { newId } from "../../model/id.ts";
import { problem } from "../../model/problem.ts";
import { id as idSchema, read } from "../../model/schema.ts";
import { limitOf } from "../guard.ts";
import { addCode, type CodeGrant, useCode } from "../query/codes.ts";
import { addDevice, claimableIds, hasLead } from "../query/devices.ts";
import type { Db } from "../query/tables.ts";
import { hashOf, newCode, newToken, plainCode } from "../secret.ts";
import { callerOf, type House, instantOf, serve } from "../serve.ts";
import { WrongCodes } from "../wrong-codes.ts";

/** The cookie that outlives a tablet's storage. It names the device that was enrolled here, and gives no right. */
const hintCookie = "cloche-device";
const hintSeconds = 400 * 24 * 3600; // browsers keep none longer

/** Hello, enrolling with a one-time code, making codes, and renewing a cloned device. */
export function enrollRoutes(app: FastifyInstance, house: House): void {
  const { store, now } = house;
  const wrong = new WrongCodes(now);

  serve(app, "GET /api/hello", helloReply, async (request) => ({
    incarnation: store.incarnation,
    device: hintOf(request),
  }));

  serve(
    app,
    "POST /api/enroll",
    enrollReply,
    async (request, reply) => {
      const { code, name, formerly = [] } = read(enrollRequest, request.body);
      wrong.check(request.ip);
      const at = instantOf(now());
      const enrolled = await store.db.transaction().execute(async (trx) => {
        const grant = await useCode(trx, hashOf("code", plainCode(code)), at);
        if (!grant) return null;
        const ids = await claimableIds(trx, grant.role, formerly);
        return enroll(trx, { ...grant, name: name.trim() === "" ? grant.name : name }, ids, at);
      });
      if (!enrolled) {
        wrong.note(request.ip);
        request.log.warn({ address: request.ip }, "wrong enrollment code");
        throw problem("enroll/bad-code");
      }
      giveHint(reply, enrolled);
      return { ...enrolled, incarnation: store.incarnation };
    },
    limitOf(120),
  );

  serve(app, "POST /api/codes", codeReply, async (request) => {
    const grant = read(codeRequest, request.body);
    return makeCode(store.db, grant, now(), limits.codeMinutes);
  });

  serve(
    app,
    "POST /api/renew",
    enrollReply,
    async (request, reply) => {
      const { ids, role, name, study } = callerOf(request);
      const at = instantOf(now());
      const renewed = await store.db.transaction().execute((trx) => enroll(trx, { role, name, study }, ids, at));
      giveHint(reply, renewed);
      return { ...renewed, incarnation: store.incarnation };
    },
    limitOf(120),
  );
}

/**
 * Makes a one-time code for a device and keeps its hash.
 * With `minutes` null it has 80 bits instead of 40 and is valid until used, while this process runs.
 */
export async function makeCode(
  db: Db,
  grant: CodeGrant,
  now: number,
  minutes: number | null,
): Promise<{ code: string; expiresAt: string }> {
  const code = newCode(minutes === null ? 4 : 2);
  const expiresAt = minutes === null ? null : instantOf(now + minutes * 60_000);
  await addCode(db, hashOf("code", plainCode(code)), grant, expiresAt, instantOf(now));
  return { code, expiresAt: expiresAt ?? "" };
}

/** The code for the first lead, or null when there is a lead already. */
export async function firstLeadCode(db: Db, now: number): Promise<string | null> {
  return (await hasLead(db)) ? null : (await makeCode(db, leadGrant, now, null)).code;
}

export const leadGrant: CodeGrant = { role: "lead", study: null, name: "" };

async function enroll(
  db: Db,
  grant: CodeGrant,
  formerIds: readonly string[],
  at: string,
): Promise<Omit<EnrollReply, "incarnation">> {
  const device = newId();
  const token = newToken();
  const { role, name, study } = grant;
  const row = { id: device, token_hash: hashOf("token", token), role, name, study, enrolled_at: at };
  await addDevice(db, row, formerIds);
  return { device, token, role, name };
}

function giveHint(reply: FastifyReply, { device, role }: { device: string; role: Role }): void {
  if (role !== "panel") return;
  const secure = reply.request.protocol === "https" ? "; Secure" : "";
  reply.header(
    "set-cookie",
    `${hintCookie}=${device}; Path=/api; Max-Age=${hintSeconds}; HttpOnly; SameSite=Strict${secure}`,
  );
}

function hintOf(request: FastifyRequest): string | null {
  const found = new RegExp(`(?:^|;\\s*)${hintCookie}=([^;]*)`).exec(request.headers.cookie ?? "")?.[1];
  return found !== undefined && idSchema.safeParse(found).success ? found : null;
}
