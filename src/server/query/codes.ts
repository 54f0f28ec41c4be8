import type { Role } from "../../model/http.ts";
import type { Db } from "./tables.ts";

export type CodeGrant = { role: Role; study: string | null; name: string };

/** Keeps the hash of a new code and forgets those that ran out. `expiresAt` null: valid until used. */
export async function addCode(db: Db, hash: string, grant: CodeGrant, expiresAt: string | null, now: string) {
  await db.deleteFrom("codes").where("expires_at", "<", now).execute();
  await db
    .insertInto("codes")
    .values({ hash, ...grant, expires_at: expiresAt, used_at: null })
    .execute();
}

/** Uses a code up. Returns what it grants, or null when there is none, it was used, or it is too old. */
export async function useCode(db: Db, hash: string, now: string): Promise<CodeGrant | null> {
  // one statement decides: of two who send the same code, one gets it
  const used = await db
    .updateTable("codes")
    .set({ used_at: now })
    .where("hash", "=", hash)
    .where("used_at", "is", null)
    .where((e) => e.or([e("expires_at", "is", null), e("expires_at", ">", now)]))
    .returning(["role", "study", "name"])
    .executeTakeFirst();
  return used ?? null;
}

/** Codes without an end belong to the process that printed them: the next one starts without. */
export async function dropEndlessCodes(db: Db): Promise<void> {
  await db.deleteFrom("codes").where("expires_at", "is", null).execute();
}
