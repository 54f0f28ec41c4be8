import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { DeviceStore } from "../../src/device/store.ts";
import { readEvent } from "../../src/log/facts.ts";
import { sha256 } from "../../src/model/canonical.ts";
import type { PanelReply, PushRequest } from "../../src/model/http.ts";
import type { BlindPacket } from "../../src/model/packet.ts";
import { type Glass, keepCardCheck } from "../../src/panel/card-check.ts";
import type { Clock } from "../../src/panel/clock.ts";
import type { AppParts } from "../../src/panel/parts.ts";
import type { Release } from "../../src/panel/tray-hold.ts";

/** A tablet without a browser: its storage in memory, a clock that stands still until it is moved, a small server. */
export const study = "11111111-1111-4111-8111-111111111111";
export const booth = "aaaaaaaa-aaaa-4aaa-8aaa-aaaaaaaaaaaa";
const incarnation = "99999999-9999-4999-8999-999999999999";

/** The scenario's allergens and serving; codes invented. Seventeen trays, so that tray 17 has the label of its card. */
export const packet: BlindPacket = {
  v: 1,
  study,
  method: "triangle",
  wording: "triangle-1",
  noPreference: false,
  reference: null,
  properties: [],
  ranking: null,
  chew: null,
  line: null,
  palette: "dim",
  allergens: {
    version: sha256("a list"),
    contains: ["celery", "egg", "gluten-cereals", "milk"],
    mayContain: ["mustard"],
    other: [],
  },
  cautions: ["choking", "hygiene"],
  consent: null,
  swallow: "either",
  cleanser: "water and plain crackers",
  pauseSeconds: 45,
  retaste: true,
  warmUp: true,
  trays: Array.from({ length: 17 }, (_, index) => ({
    tray: index + 1,
    wave: 1,
    spare: false,
    codes: [String(301 + index), String(514 + index), String(827 + index)],
  })),
  commitment: sha256("a commitment"),
};

export class StillClock implements Clock {
  #now = 1000;
  #timers: { due: number; run: () => void }[] = [];
  monotonic = (): number => this.#now;
  instant = (): string => new Date(Date.UTC(2026, 4, 3, 12) + this.#now).toISOString();
  after = (ms: number, run: () => void): (() => void) => {
    const timer = { due: this.#now + ms, run };
    this.#timers.push(timer);
    return () => {
      this.#timers = this.#timers.filter((one) => one !== timer);
    };
  };

  /** Lets time pass, and runs what falls due, in order. */
  pass(ms: number): void {
    const end = this.#now + ms;
    for (;;) {
      const next = this.#timers.filter((timer) => timer.due <= end).sort((a, b) => a.due - b.due)[0];
      if (!next) break;
      this.#timers = this.#timers.filter((timer) => timer !== next);
      this.#now = next.due;
      next.run();
    }
    this.#now = end;
  }
}

/** What a server of one study answers; a test changes its fields. */
export class SmallServer {
  reachable = true;
  known = true;
  code = "K7QM-4XTP";
  role: "panel" | "lead" = "panel";
  /** The name that the lead gave with the code. */
  nameGiven = "";
  reply: PanelReply = { incarnation, heads: {}, packet, taken: [], closed: false, halted: false };
  /** Ids of events it took, once each. */
  taken = new Set<string>();
  asked: { path: string; body: unknown }[] = [];

  readonly fetcher = async (path: string, init: RequestInit): Promise<Response> => {
    if (!this.reachable) throw new TypeError("no network");
    const body: unknown = typeof init.body === "string" ? JSON.parse(init.body) : null;
    this.asked.push({ path, body });
    if (path === "/api/enroll") return this.#enroll(body as { code: string; name: string });
    if (!this.known) return refuse(401, "access/not-enrolled");
    if (path === "/api/panel") return json(200, this.reply);
    if (path === "/api/events") return this.#push(body as PushRequest);
    return refuse(404, "access/not-found");
  };

  #enroll({ code, name }: { code: string; name: string }): Response {
    if (code !== this.code) return refuse(403, "enroll/bad-code");
    return json(200, { device: booth, token: "a token", role: this.role, name: name || this.nameGiven, incarnation });
  }

  #push({ events }: PushRequest): Response {
    const heads: Record<string, number> = {};
    const verdicts = events.map((text) => {
      const read = readEvent(text);
      if (!read.ok) throw new Error(read.reason);
      const { id, seq } = read.envelope;
      this.taken.add(id);
      heads[`study:${study}`] = seq;
      return { id, verdict: "stored" };
    });
    this.reply = { ...this.reply, heads: { ...this.reply.heads, ...heads } };
    return json(200, { incarnation, verdicts, heads: this.reply.heads });
  }
}

const json = (status: number, value: unknown): Response =>
  new Response(JSON.stringify(value), { status, headers: { "content-type": "application/json" } });
const refuse = (status: number, code: string): Response => json(status, { code, details: {}, errorId: "e1" });

export class Tablet {
  static #made = 0;
  static #next(): number {
    Tablet.#made += 1;
    return Tablet.#made;
  }

  readonly clock = new StillClock();
  readonly server = new SmallServer();
  readonly held = new Set<string>();
  awake = false;
  /** 132 CSS pixels an inch, which are about 5.2 a millimeter; 1080 of them across. */
  glass: Glass = { widthPx: 1080, longSidePx: 1080, pixelRatio: 2 };
  #hideListeners = new Set<() => void>();
  update: ((accept: () => Promise<void>) => void) | null = null;
  heldElsewhere = false;
  /** Named anew each time: what an earlier test still has in flight must not land here. */
  readonly store = new DeviceStore(`tablet ${Tablet.#next()}`);
  readonly parts: AppParts;

  constructor() {
    const hold = async (name: string, tray: number): Promise<Release | null> => {
      const key = `${name} ${tray}`;
      if (this.held.has(key)) return null;
      this.held.add(key);
      return () => void this.held.delete(key);
    };
    this.parts = {
      store: this.store,
      clock: this.clock,
      hold,
      fetcher: this.server.fetcher,
      uniform: () => 0.5,
      status: async () => null,
      salt: () => "5".repeat(64),
      awake: { keep: () => this.#wake(true), letGo: () => this.#wake(false) },
      screen: () => ({ widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" }),
      glass: () => this.glass,
      onHidden: (listener) => {
        this.#hideListeners.add(listener);
        return () => void this.#hideListeners.delete(listener);
      },
      loadTools: () => import("../../src/panel/tools/tools-room.tsx"),
      loadChoice: () => import("../../src/panel/choice/choice-room.tsx"),
      loadLine: () => import("../../src/panel/line/line-room.tsx"),
      loadChew: () => import("../../src/panel/chew/chew-room.tsx"),
      code: "",
      wasEnrolled: async () => false,
      persist: () => {},
      worksOffline: () => true,
      watchForUpdate: (onWaiting) => {
        this.update = onWaiting;
      },
      betweenTrays: async (work) => {
        if (this.heldElsewhere) return false;
        await work();
        return true;
      },
    };
  }

  /** Somebody switches to another app for a moment. */
  hide(): void {
    for (const listener of this.#hideListeners) listener();
  }

  #wake(on: boolean): void {
    this.awake = on;
  }

  /** An enrolled tablet that has its packet. */
  async ready(change: Partial<BlindPacket> = {}): Promise<this> {
    const now = { ...packet, ...change };
    this.server.reply = { ...this.server.reply, packet: now };
    await this.store.setMeta("identity", { device: booth, token: "a token", role: "panel", name: "A", formerly: [] });
    await this.store.setMeta("packet", now);
    return this;
  }

  /** Measured with a card. */
  async measured(pxPerMm = 5.2): Promise<void> {
    await keepCardCheck(this.store, { pxPerMm, pixelRatio: this.glass.pixelRatio, at: this.clock.instant() });
  }

  /** "kind tray" of its own events, in order. */
  async events(): Promise<string[]> {
    const facts = await this.store.ownFacts({ kind: "study", id: study });
    return facts.map((fact) => ("tray" in fact.body ? `${fact.kind} ${fact.body.tray}` : fact.kind));
  }
}

/** A new disk for each test. */
export function emptyDisk(): void {
  globalThis.indexedDB = new IDBFactory();
}
