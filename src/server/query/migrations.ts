import type { Kysely, Migration } from "kysely";

/** Changes of the tables, in order of name. A released one is never edited; the next one is added. */
export const migrations: Record<string, Migration> = {
  "001-start": { up: start },
};

async function start(db: Kysely<unknown>): Promise<void> {
  const { schema } = db;
  await schema
    .createTable("meta")
    .addColumn("name", "text", (c) => c.primaryKey())
    .addColumn("value", "text", (c) => c.notNull())
    .execute();
  await devicesAndCodes(db);
  await schema
    .createTable("streams")
    .addColumn("key", "text", (c) => c.primaryKey())
    .addColumn("kind", "text", (c) => c.notNull())
    .addColumn("id", "text", (c) => c.notNull())
    .addColumn("head", "integer", (c) => c.notNull())
    .addColumn("chain", "text", (c) => c.notNull())
    .execute();
  await events(db);
  await schema
    .createTable("heads")
    .addColumn("device", "text", (c) => c.notNull())
    .addColumn("stream", "text", (c) => c.notNull())
    .addColumn("head", "bigint", (c) => c.notNull())
    .addPrimaryKeyConstraint("heads_key", ["device", "stream"])
    .execute();
  await schema
    .createTable("attachments")
    .addColumn("event", "text", (c) => c.notNull())
    .addColumn("device", "text", (c) => c.notNull())
    .addColumn("salt", "text", (c) => c.notNull())
    .addColumn("text", "text", (c) => c.notNull())
    .addColumn("received_at", "text", (c) => c.notNull())
    .addPrimaryKeyConstraint("attachments_key", ["event", "device"])
    .execute();
}

async function devicesAndCodes({ schema }: Kysely<unknown>): Promise<void> {
  await schema
    .createTable("devices")
    .addColumn("id", "text", (c) => c.primaryKey())
    .addColumn("token_hash", "text", (c) => c.notNull().unique())
    .addColumn("role", "text", (c) => c.notNull())
    .addColumn("name", "text", (c) => c.notNull())
    .addColumn("study", "text")
    .addColumn("enrolled_at", "text", (c) => c.notNull())
    .addColumn("last_seen", "text")
    .addColumn("revoked", "integer", (c) => c.notNull())
    .addColumn("status", "text")
    .execute();
  await schema
    .createTable("former_ids")
    .addColumn("device", "text", (c) => c.notNull().references("devices.id"))
    .addColumn("former", "text", (c) => c.notNull())
    .addPrimaryKeyConstraint("former_ids_key", ["device", "former"])
    .execute();
  await schema
    .createTable("codes")
    .addColumn("hash", "text", (c) => c.primaryKey())
    .addColumn("role", "text", (c) => c.notNull())
    .addColumn("study", "text")
    .addColumn("name", "text", (c) => c.notNull())
    .addColumn("expires_at", "text")
    .addColumn("used_at", "text")
    .execute();
}

async function events({ schema }: Kysely<unknown>): Promise<void> {
  await schema
    .createTable("events")
    .addColumn("id", "text", (c) => c.primaryKey())
    .addColumn("stream", "text", (c) => c.notNull().references("streams.key"))
    .addColumn("device", "text", (c) => c.notNull())
    .addColumn("seq", "bigint", (c) => c.notNull())
    .addColumn("position", "integer", (c) => c.notNull())
    .addColumn("kind", "text", (c) => c.notNull())
    .addColumn("role", "text", (c) => c.notNull())
    .addColumn("held", "integer", (c) => c.notNull())
    .addColumn("tray", "integer")
    .addColumn("hash", "text", (c) => c.notNull())
    .addColumn("text", "text", (c) => c.notNull())
    .addColumn("chain", "text", (c) => c.notNull())
    .addColumn("received_at", "text", (c) => c.notNull())
    .addUniqueConstraint("events_place", ["stream", "device", "seq"])
    .addUniqueConstraint("events_position", ["stream", "position"])
    .execute();
  await schema.createIndex("events_kind").on("events").columns(["stream", "kind"]).execute();
  await schema
    .createTable("quarantine")
    .addColumn("id", "text", (c) => c.notNull())
    .addColumn("hash", "text", (c) => c.notNull())
    .addColumn("stream", "text")
    .addColumn("device", "text")
    .addColumn("seq", "bigint")
    .addColumn("counts", "integer", (c) => c.notNull())
    .addColumn("reason", "text", (c) => c.notNull())
    .addColumn("pushed_by", "text", (c) => c.notNull())
    .addColumn("text", "text", (c) => c.notNull())
    .addColumn("received_at", "text", (c) => c.notNull())
    .addPrimaryKeyConstraint("quarantine_key", ["id", "hash"])
    .execute();
  await schema.createIndex("quarantine_place").on("quarantine").columns(["stream", "device", "seq"]).execute();
}
