import type { FastifyInstance } from "fastify";
import {
  addressesReply,
  type DeviceInfo,
  deviceChange,
  deviceInfo,
  devicesReply,
  type Status,
} from "../../model/http.ts";
import { problem } from "../../model/problem.ts";
import { id as idSchema, read } from "../../model/schema.ts";
import { allDevices, changeDevice, type DeviceRow, headsByDevice, unreadableByDevice } from "../query/devices.ts";
import { type House, serve } from "../serve.ts";

/** The lead's view of the enrolled devices, and what the lead may change: study served, name, withdrawal. */
export function deviceRoutes(app: FastifyInstance, { store, presence, addresses }: House): void {
  serve(app, "GET /api/addresses", addressesReply, async () => ({ addresses: addresses() }));

  serve(app, "GET /api/devices", devicesReply, async () => {
    const known = await knownOfDevices();
    const rows = await allDevices(store.db);
    return { devices: rows.map((row) => infoOf(row, known)) };
  });

  serve(app, "POST /api/devices/:id", deviceInfo, async (request) => {
    const { id } = request.params as { id: string };
    read(idSchema, id, () => problem("access/not-found"));
    const { study, name, revoked } = read(deviceChange, request.body);
    const changed = await changeDevice(store.db, id, {
      ...(study === undefined ? {} : { study }),
      ...(name === undefined ? {} : { name }),
      ...(revoked === undefined ? {} : { revoked: 1 }),
    });
    if (!changed) throw problem("access/not-found");
    return infoOf(changed, await knownOfDevices());
  });

  const knownOfDevices = async () => ({
    heads: await headsByDevice(store.db),
    unreadable: await unreadableByDevice(store.db),
  });

  function infoOf(row: DeviceRow, known: Awaited<ReturnType<typeof knownOfDevices>>): DeviceInfo {
    const seen = presence.of(row.id);
    return {
      id: row.id,
      name: row.name,
      role: row.role,
      study: row.study,
      enrolledAt: row.enrolled_at,
      lastSeen: seen?.lastSeen ?? row.last_seen,
      revoked: row.revoked === 1,
      status: seen?.status ?? (row.status === null ? null : (JSON.parse(row.status) as Status)),
      heads: known.heads.get(row.id) ?? {},
      unreadable: known.unreadable.get(row.id) ?? 0,
    };
  }
}
