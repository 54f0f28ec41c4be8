// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { DeviceInfo, Status } from "../../src/model/http.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { checksOf, isQuiet } from "../../src/organizer/device-checks.ts";
import { addressesFor, isOwnComputer, scanned } from "../../src/organizer/reach.ts";
import { Tablets } from "../../src/organizer/tablets.tsx";
import { tabletWords as words } from "../../src/words/en/organizer-tablets.ts";
import { readyPlan } from "../design/scenario.ts";
import { asLead, device, newLead, now, stream, study } from "./lead-page.tsx";

const booth = "bbbbbbbb-bbbb-4bbb-8bbb-bbbbbbbbbbbb";
const status = (changes: Partial<Status> = {}): Status => ({
  ...{ unsent: 0, battery: 0.81, persisted: true, app: "0.2.0" },
  ...changes,
});
const info = (changes: Partial<DeviceInfo> = {}): DeviceInfo => ({
  ...{ id: booth, name: "Booth 1", role: "panel", study, enrolledAt: now, lastSeen: now, revoked: false },
  ...{ status: status(), heads: {}, unreadable: 0 },
  ...changes,
});
const self = info({ id: device, name: "Odalys Brandt", role: "lead", study: null, status: null });

describe("what a tablet said of itself", () => {
  const { checks } = words;
  test.each<[string, Partial<Status>, number | null, string[]]>([
    ["an older tablet, a study without a line", {}, null, [checks.persisted]],
    ["a browser that may clear its storage", { persisted: false }, null, [checks.notPersisted]],
    ["a browser that says nothing of storage", { persisted: null }, null, []],
    ["not checked with a card", { lineMm: null }, null, [checks.persisted, checks.lineUnchecked]],
    ["not checked, and the study needs a line", { lineMm: null }, 120, [checks.persisted, checks.lineNeeded(120)]],
    ["an older tablet, and the study needs a line", {}, 120, [checks.persisted, checks.lineNeeded(120)]],
    ["long enough to the millimeter", { lineMm: 120 }, 120, [checks.persisted, checks.line(120)]],
    ["half a millimeter short is short", { lineMm: 119.5 }, 120, [checks.persisted, checks.lineShort(119, 120)]],
    ["long enough without need", { lineMm: 151.8 }, null, [checks.persisted, checks.line(151)]],
  ])("%s", (_what, said, needed, expected) => {
    expect(checksOf(info({ status: status(said) }), needed)).toEqual(expected);
  });

  test("a lead's browser and a tablet that has said nothing yet are not judged", () => {
    expect(checksOf(info({ role: "lead" }), 120)).toEqual([]);
    expect(checksOf(info({ status: null }), 120)).toEqual([]);
  });

  test("quiet: a tablet in use, not heard of for more than a minute", () => {
    const seen = (lastSeen: string | null, more: Partial<DeviceInfo> = {}) => isQuiet(info({ lastSeen, ...more }), now);
    expect([seen("2026-05-03T11:58:59.000Z"), seen("2026-05-03T11:59:30.000Z"), seen(null)]).toEqual([
      true,
      false,
      false,
    ]);
    expect(seen("2026-05-03T11:00:00.000Z", { revoked: true })).toBe(false);
    expect(seen("2026-05-03T11:00:00.000Z", { role: "reader" })).toBe(false);
  });
});

describe("where other devices reach the server", () => {
  test.each([
    ["localhost", true],
    ["127.0.0.1", true],
    ["127.1.2.3", true],
    ["[::1]", true],
    ["localhost.kitchen.test", false],
    ["192.168.4.20", false],
    ["kitchen.test", false],
  ])("%s is the server's own computer: %s", (hostname, own) => {
    expect(isOwnComputer(hostname)).toBe(own);
  });

  test("a browser that came over the network gives its own address, without asking", async () => {
    const asked: string[] = [];
    const fetcher = async (path: string): Promise<Response> => {
      asked.push(path);
      throw new TypeError("no network");
    };
    const lead = { fetcher, who: { token: "t" } as Lead["who"] };
    const place = { origin: "https://kitchen.test:8443", hostname: "kitchen.test" };
    expect(await addressesFor(lead, place)).toEqual(["https://kitchen.test:8443/"]);
    expect(asked).toEqual([]);
    const local = { origin: "http://localhost:8080", hostname: "localhost" };
    await expect(addressesFor(lead, local)).rejects.toMatchObject({ problem: { code: "server/unreachable" } });
  });

  test("the code stands after #, under the name that each page looks for", () => {
    const of = (role: DeviceInfo["role"]) => scanned("https://192.0.2.7:8080/", role, "K7QM-4XTP");
    expect(of("panel")).toBe("https://192.0.2.7:8080/panel/#code=K7QM-4XTP");
    expect(of("reader")).toBe("https://192.0.2.7:8080/report/#code=K7QM-4XTP");
    expect(of("lead")).toBe("https://192.0.2.7:8080/organizer/#setup=K7QM-4XTP");
  });
});

describe("the page of tablets", () => {
  let lead: Lead;
  let devices: DeviceInfo[];
  let addresses: string[] | null;
  beforeEach(async () => {
    lead = await newLead();
    devices = [self, info()];
    addresses = ["https://192.0.2.7:8080/", "https://10.0.0.7:8080/"];
    const json = (code: number, body: unknown) =>
      new Response(JSON.stringify(body), { status: code, headers: { "content-type": "application/json" } });
    lead.fetcher = async (path) => {
      if (path === "/api/devices") return json(200, { devices });
      if (path === "/api/codes") return json(200, { code: "K7QM-4XTP", expiresAt: "2026-05-03T12:10:00.000Z" });
      if (path === "/api/addresses" && addresses) return json(200, { addresses });
      throw new TypeError("no network");
    };
    window.history.replaceState(null, "", "http://localhost:3000/organizer/");
    await lead.store.append(device, now, {
      stream,
      kind: "draft-saved",
      body: { base: null, merged: [], plan: readyPlan() },
    });
  });
  afterEach(async () => {
    cleanup();
    await lead.store.close();
  });
  const row = async () => (await screen.findByText("Booth 1")).closest("tr")?.textContent ?? "";
  const makeCode = async () => fireEvent.click(await screen.findByRole("button", { name: words.make.submit }));
  const typedAt = async () => (await screen.findByText("K7QM-4XTP")).closest(".one-time")?.textContent ?? "";

  test("a study is named by its title, even one that is not locked here; the tablet's word on itself stands there", async () => {
    devices = [self, info({ status: status({ persisted: false, unsent: 3 }) })];
    asLead(lead, <Tablets />);
    await waitFor(async () => expect(await row()).toContain(readyPlan().title));
    for (const said of [words.checks.notPersisted, "3", "81"]) expect(await row()).toContain(said);
    expect(document.body.textContent).not.toContain(study.slice(0, 8));
  });

  test("no code can be made before the studies are read: it would be for none of them", async () => {
    asLead(lead, <Tablets />);
    expect(screen.queryByRole("button", { name: words.make.submit })).toBeNull();
    await screen.findByRole("button", { name: words.make.submit });
  });

  test("on the server's own computer the code is scanned at an address of the network", async () => {
    asLead(lead, <Tablets />);
    await makeCode();
    expect(await typedAt()).toContain("https://192.0.2.7:8080/panel/");
    expect(screen.getByRole("img", { name: words.code.qr })).toBeTruthy();
    fireEvent.change(screen.getByLabelText(words.code.which), { target: { value: "https://10.0.0.7:8080/" } });
    await waitFor(async () => expect(await typedAt()).toContain("https://10.0.0.7:8080/panel/"));
    expect(await typedAt()).not.toContain(words.code.plainHttp);
  });

  test("a server that other devices cannot reach says so instead of showing a code to scan", async () => {
    addresses = [];
    asLead(lead, <Tablets />);
    await makeCode();
    expect(await typedAt()).toContain(words.code.onlyHere);
    expect(screen.queryByRole("img", { name: words.code.qr })).toBeNull();
  });

  test("a server that did not answer leaves the code and the end of the address", async () => {
    addresses = null;
    asLead(lead, <Tablets />);
    await makeCode();
    expect(await typedAt()).toContain(`${words.code.unknown} /panel/`);
  });

  test("a plain address says what will not work there", async () => {
    addresses = ["http://192.0.2.7:8080/"];
    asLead(lead, <Tablets />);
    await makeCode();
    expect(await typedAt()).toContain(words.code.plainHttp);
    expect(screen.queryByLabelText(words.code.which)).toBeNull();
  });

  test("once the tablet is there the code is gone, and its name stands in its place", async () => {
    asLead(lead, <Tablets />);
    await row();
    await makeCode();
    await typedAt();
    const next = "cccccccc-cccc-4ccc-8ccc-cccccccccccc";
    devices = [...devices, info({ id: next, name: "Booth 2" })];
    await lead.store.setMeta("devices", devices); // as the next look at the server would
    await screen.findByText(words.code.used("Booth 2"));
    expect(screen.queryByText("K7QM-4XTP")).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: words.code.done }));
    await waitFor(() => expect(screen.queryByText(words.code.used("Booth 2"))).toBeNull());
  });
});
