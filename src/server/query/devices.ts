import type { Role } from "../../model/http.ts";
import type { Db, Tables } from "./tables.ts";

/** Who is calling: an enrolled, not revoked device. `ids` are its own id and those it had before. */
export type Caller = { id: string; role: Role; name: string; study: string | null; ids: string[] };

export type DeviceRow = Tables["devices"];

/** The device with this token, unless it was revoked. */
export async function callerByToken(db: Db, tokenHash: string): Promise<Caller | null> {
  const row = await db
    .selectFrom("devices")
    .select(["id", "role", "name", "study"])
    .where("token_hash", "=", tokenHash)
    .where("revoked", "=", 0)
    .executeTakeFirst();
  if (!row) return null;
  const former = await db.selectFrom("former_ids").select("former").where("device", "=", row.id).execute();
  return { ...row, ids: [row.id, ...former.map((f) => f.former)] };
}

/** Adds a device, with the ids it had before. */
export async function addDevice(
  db: Db,
  device: Pick<DeviceRow, "id" | "token_hash" | "role" | "name" | "study" | "enrolled_at">,
  formerIds: readonly string[],
): Promise<void> {
  await db
    .insertInto("devices")
    .values({ ...device, last_seen: null, revoked: 0, status: null })
    .execute();
  for (const former of new Set(formerIds)) {
    await db.insertInto("former_ids").values({ device: device.id, former }).execute();
  }
}

/**
 * Which of the ids that a newly enrolled device says it had may it have had? Those this server has never seen (it
 * was lost, the tablet was not), and those of revoked devices of the same role, with what those had been before.
 */
export async function claimableIds(db: Db, role: Role, claimed: readonly string[]): Promise<string[]> {
  const granted: string[] = [];
  for (const id of claimed) {
    const known = await db.selectFrom("devices").select(["role", "revoked"]).where("id", "=", id).executeTakeFirst();
    const heirs = await db
      .selectFrom("former_ids")
      .innerJoin("devices", "devices.id", "former_ids.device")
      .select("devices.id")
      .where("former", "=", id)
      .where("devices.revoked", "=", 0)
      .execute();
    const free = known ? known.revoked === 1 && known.role === role : true;
    if (free && heirs.length === 0) granted.push(id);
  }
  return granted;
}

/** Is there a lead that can still get in? */
export async function hasLead(db: Db): Promise<boolean> {
  const found = await db
    .selectFrom("devices")
    .select("id")
    .where("role", "=", "lead")
    .where("revoked", "=", 0)
    .limit(1)
    .execute();
  return found.length > 0;
}

export async function allDevices(db: Db): Promise<DeviceRow[]> {
  return db.selectFrom("devices").selectAll().orderBy("enrolled_at").orderBy("id").execute();
}

export async function changeDevice(
  db: Db,
  id: string,
  change: Partial<Pick<DeviceRow, "study" | "name" | "revoked">>,
): Promise<DeviceRow | null> {
  if (Object.keys(change).length > 0) await db.updateTable("devices").set(change).where("id", "=", id).execute();
  return (await db.selectFrom("devices").selectAll().where("id", "=", id).executeTakeFirst()) ?? null;
}

/** Notes when a device was last heard of, and what it said of itself. */
export async function notePresence(db: Db, id: string, lastSeen: string, status: string | null): Promise<void> {
  const change = status === null ? { last_seen: lastSeen } : { last_seen: lastSeen, status };
  await db.updateTable("devices").set(change).where("id", "=", id).execute();
}

/** Heads of every device in study streams: device -> study -> highest gapless sequence number. */
export async function headsByDevice(db: Db): Promise<Map<string, Record<string, number>>> {
  const rows = await db
    .selectFrom("heads")
    .innerJoin("streams", "streams.key", "heads.stream")
    .select(["heads.device", "heads.head", "streams.id as study"])
    .where("streams.kind", "=", "study")
    .execute();
  const heads = new Map<string, Record<string, number>>();
  for (const { device, head, study } of rows) heads.set(device, { ...heads.get(device), [study]: Number(head) });
  return heads;
}

/** How many events of each device nobody could read, so that they belong to no study: device that sent them -> count. */
export async function unreadableByDevice(db: Db): Promise<Map<string, number>> {
  const rows = await db
    .selectFrom("quarantine")
    .select((e) => ["pushed_by", e.fn.countAll().as("n")])
    .where("reason", "=", "unreadable")
    .groupBy("pushed_by")
    .execute();
  return new Map(rows.map(({ pushed_by, n }) => [pushed_by, Number(n)]));
}
