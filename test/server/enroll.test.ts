import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { DeviceInfo } from "../../src/model/http.ts";
import { hashOf, newCode, newToken, plainCode } from "../../src/server/secret.ts";
import { WrongCodes } from "../../src/server/wrong-codes.ts";
import { House, problemCode } from "./house.ts";
import { Pen } from "./pen.ts";

let house: House;
beforeEach(async () => {
  house = await House.open();
});
afterEach(() => house.close());

const tryCode = (code: string) => house.call("POST", "/api/enroll", { body: { code, name: "" } });

test("H1 a code enrolls one device: its second use is refused", async () => {
  const code = await house.code(await house.lead(), "panel");
  expect((await tryCode(code)).status).toBe(200);
  const second = await tryCode(code);
  expect(second.status).toBe(403);
  expect(problemCode(second)).toBe("enroll/bad-code");
});

test("H1 two devices that send one code at the same moment: one is enrolled", async () => {
  const code = await house.code(await house.lead(), "panel");
  const replies = await Promise.all([tryCode(code), tryCode(code), tryCode(code)]);
  expect(replies.map(({ status }) => status).sort()).toEqual([200, 403, 403]);
});

test("H1 a code works until just before ten minutes have passed, and not after", async () => {
  const lead = await house.lead();
  const [early, late] = [await house.code(lead, "panel"), await house.code(lead, "panel")];
  house.clock += 10 * 60_000 - 1;
  expect((await tryCode(early)).status).toBe(200);
  house.clock += 1;
  const refused = await tryCode(late);
  // used, mistyped and too old look the same
  expect([refused.status, problemCode(refused)]).toEqual([403, "enroll/bad-code"]);
});

test("H1 guessing is locked out, for right codes too, and ends a minute later", async () => {
  const code = await house.code(await house.lead(), "panel");
  for (let guess = 0; guess < 10; guess += 1) expect((await tryCode(newCode())).status).toBe(403);
  for (let guess = 10; guess < 20; guess += 1) {
    const locked = await tryCode(newCode());
    expect([locked.status, problemCode(locked)]).toEqual([429, "enroll/locked-out"]);
    expect(locked.headers.get("retry-after")).toBe("60");
  }
  expect((await tryCode(code)).status).toBe(429);
  house.clock += 60_000;
  expect((await tryCode(code)).status).toBe(200);
});

describe("H1 wrong codes", () => {
  let now: number;
  let wrong: WrongCodes;
  beforeEach(() => {
    now = 0;
    wrong = new WrongCodes(() => now);
  });
  const locked = (address: string): boolean => {
    try {
      wrong.check(address);
      return false;
    } catch (thrown) {
      expect(thrown).toMatchObject({ problem: { code: "enroll/locked-out" } });
      return true;
    }
  };

  test("somebody who keeps trying slowly, from a few addresses, locks nobody out", () => {
    for (let tries = 0; tries < 360; tries += 1) {
      expect(locked("192.0.2.9")).toBe(false);
      if (!locked(`192.0.2.${tries % 3}`)) wrong.note(`192.0.2.${tries % 3}`);
      now += 10_000;
    }
  });

  test("who guesses fast is locked out alone; a flood from many addresses locks everybody, for a minute", () => {
    for (let guess = 0; guess < 10; guess += 1) wrong.note("192.0.2.1");
    for (let guess = 0; guess < 89; guess += 1) wrong.note(`198.51.100.${guess}`);
    expect([locked("192.0.2.1"), locked("192.0.2.9")]).toEqual([true, false]);
    wrong.note("198.51.100.89");
    expect([locked("198.51.100.1"), locked("192.0.2.9")]).toEqual([true, true]);
    now += 60_000;
    expect([locked("192.0.2.1"), locked("192.0.2.9")]).toEqual([false, false]);
  });
});

test("H14 forty tablets behind one address enroll one after the other", async () => {
  const lead = await house.lead();
  for (let tablet = 0; tablet < 40; tablet += 1) await house.device(lead, "panel");
  const { json } = await house.call("GET", "/api/devices", { token: lead.token });
  expect((json as { devices: DeviceInfo[] }).devices).toHaveLength(41);
});

test("a code may be typed in small letters, with spaces, and with O for 0, I or L for 1", () => {
  expect(plainCode(" ok1l-9qxd ")).toBe("0K119QXD");
  expect(plainCode("7k3m 9qxd")).toBe(plainCode("7K3M-9QXD"));
});

test("codes carry 40 bits without the letters that are mistaken; tokens carry 256", () => {
  const codes = Array.from({ length: 500 }, () => newCode());
  for (const code of codes) expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/);
  expect(new Set(codes).size).toBe(500);
  expect(new Set(codes.join("").replaceAll("-", "")).size).toBe(32);
  expect(Buffer.from(newToken(), "base64url")).toHaveLength(32);
});

test("neither tokens nor codes are in the database, only their hashes", async () => {
  const lead = await house.lead();
  const code = await house.code(lead, "panel");
  const rows = JSON.stringify([
    await house.store.db.selectFrom("devices").selectAll().execute(),
    await house.store.db.selectFrom("codes").selectAll().execute(),
  ]);
  expect(rows).not.toContain(lead.token);
  expect(rows).not.toContain(plainCode(code));
  expect(rows).toContain(hashOf("token", lead.token));
});

test("the set-up code is for the first lead only; a lead that was withdrawn can be replaced", async () => {
  const lead = await house.lead();
  await expect(house.lead()).rejects.toThrow("there is a lead already");
  await house.call("POST", `/api/devices/${lead.device}`, { token: lead.token, body: { revoked: true } });
  expect((await house.lead()).role).toBe("lead");
});

test("H2 a withdrawn device is out at once; enrolled anew it may send what it wrote before", async () => {
  const lead = await house.lead();
  const tablet = await house.device(lead, "panel");
  const study = randomUUID();
  const pen = new Pen(tablet.device);
  expect(await house.verdicts(tablet, [pen.opened(study, 1).text])).toEqual(["stored"]);
  await house.call("POST", `/api/devices/${tablet.device}`, { token: lead.token, body: { revoked: true } });
  const unsent = pen.answer(study, 1).text;
  const refused = await house.call("POST", "/api/events", {
    token: tablet.token,
    body: { events: [unsent], attachments: [], status: null },
  });
  expect([refused.status, problemCode(refused)]).toEqual([401, "access/not-enrolled"]);
  const again = await house.enroll(await house.code(lead, "panel"), "", [tablet.device]);
  expect(again.device).not.toBe(tablet.device);
  expect(await house.verdicts(again, [unsent])).toEqual(["stored"]);
});

test("H2 nobody takes over the id of a device that is enrolled", async () => {
  const lead = await house.lead();
  const tablet = await house.device(lead, "panel");
  const other = await house.enroll(await house.code(lead, "panel"), "", [tablet.device, lead.device]);
  const study = randomUUID();
  expect(await house.verdicts(other, [new Pen(tablet.device).answer(study, 1).text])).toEqual(["refused"]);
});

test("D10 a tablet of a lost server enrolls anew and sends under its old id what it wrote", async () => {
  const lead = await house.lead();
  const before = randomUUID(); // an id that this empty server has never seen
  const tablet = await house.enroll(await house.code(lead, "panel"), "", [before]);
  expect(await house.verdicts(tablet, [new Pen(before).answer(randomUUID(), 1).text])).toEqual(["stored"]);
  const thief = await house.enroll(await house.code(lead, "panel"), "", [before]);
  expect(await house.verdicts(thief, [new Pen(before).answer(randomUUID(), 1).text])).toEqual(["refused"]);
});

test("C11 a renewed device has a new id and token, the same role, study and name, and may send under its old id", async () => {
  const lead = await house.lead();
  const study = randomUUID();
  const clone = await house.device(lead, "panel", study);
  const { json, status } = await house.call("POST", "/api/renew", { token: clone.token, body: {} });
  const renewed = json as typeof clone;
  expect(status).toBe(200);
  expect(renewed.device).not.toBe(clone.device);
  expect(renewed.token).not.toBe(clone.token);
  const devices = (await house.call("GET", "/api/devices", { token: lead.token })).json as { devices: DeviceInfo[] };
  const rows = devices.devices.filter(({ id }) => id === clone.device || id === renewed.device);
  expect(rows.map(({ role, study, name }) => ({ role, study, name }))).toEqual([
    { role: "panel", study, name: "Tablet" },
    { role: "panel", study, name: "Tablet" },
  ]);
  const [old, fresh] = [new Pen(clone.device), new Pen(renewed.device)];
  const reply = await house.push(renewed, [old.opened(study, 1).text, fresh.opened(study, 2).text]);
  expect(reply.verdicts.map(({ verdict }) => verdict)).toEqual(["stored", "stored"]);
  // the old device stays: it may be the other half of the clone, with answers of its own
  expect(await house.verdicts(clone, [old.answer(study, 1).text])).toEqual(["stored"]);
});

test("A16 a panel device leaves a cookie that names it and gives no right; a lead's does not", async () => {
  const lead = await house.lead();
  const code = await house.code(lead, "panel");
  const reply = await tryCode(code);
  const cookie = reply.headers.get("set-cookie") ?? "";
  const device = (reply.json as { device: string }).device;
  expect(cookie).toContain(`cloche-device=${device}`);
  expect(cookie).toContain("HttpOnly");
  expect(cookie).toContain("SameSite=Strict");
  const sent = cookie.split(";")[0] ?? "";
  const hello = await house.call("GET", "/api/hello", { headers: { cookie: sent } });
  expect(hello.json).toEqual({ incarnation: house.store.incarnation, device });
  expect((await house.call("GET", "/api/hello", { headers: { cookie: "cloche-device=x" } })).json).toEqual({
    incarnation: house.store.incarnation,
    device: null,
  });
  expect((await house.call("GET", "/api/panel", { headers: { cookie: sent } })).status).toBe(401);
  const leadCode = await house.code(lead, "lead");
  expect((await tryCode(leadCode)).headers.get("set-cookie")).toBeNull();
});
