import type { Kysely } from "kysely";
import type { Role } from "../../model/http.ts";

/** The tables as Kysely sees them. Times are ISO 8601 texts, yes and no are 1 and 0: both databases hold those alike. */
export type Tables = {
  meta: { name: string; value: string };
  devices: {
    id: string;
    token_hash: string;
    role: Role;
    name: string;
    study: string | null;
    enrolled_at: string;
    last_seen: string | null;
    revoked: number;
    status: string | null;
  };
  /** Ids that a device had before (a renewed or re-enrolled one): it may still send what it wrote under them. */
  former_ids: { device: string; former: string };
  codes: {
    hash: string;
    role: Role;
    study: string | null;
    name: string;
    /** null: valid until used, but only while the process that made it runs. */
    expires_at: string | null;
    used_at: string | null;
  };
  streams: { key: string; kind: string; id: string; head: number; chain: string };
  events: {
    id: string;
    stream: string;
    device: string;
    seq: number;
    position: number;
    kind: string;
    /** Role of the device that wrote it: decides whether an event that cannot be judged yet may hold answers. */
    role: Role;
    held: number;
    tray: number | null;
    hash: string;
    text: string;
    chain: string;
    received_at: string;
  };
  quarantine: {
    id: string;
    hash: string;
    stream: string | null;
    device: string | null;
    seq: number | null;
    /** Does it advance the head of its device? Not when another device sent it. */
    counts: number;
    reason: "conflict" | "fork" | "device" | "kind" | "unreadable";
    pushed_by: string;
    text: string;
    received_at: string;
  };
  heads: { device: string; stream: string; head: number };
  attachments: { event: string; device: string; salt: string; text: string; received_at: string };
};

export type Db = Kysely<Tables>;
