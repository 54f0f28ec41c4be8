import { oddPlace } from "../../src/analysis/marking.ts";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { writeEvent } from "../../src/log/facts.ts";
import type { Body, Kind } from "../../src/model/event.ts";
import type { SealedKey } from "../../src/model/key.ts";
import { commitmentOf } from "../../src/seal/commitment.ts";
import { readyPlan } from "../design/scenario.ts";

export const study = "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee";
export const lead = "22222222-2222-4222-8222-222222222222";
export const tablet = "33333333-3333-4333-8333-333333333333";

/**
 * The events of a whole invented study: 24 people, of whom the first `right` pick the odd sample.
 * Left open before the reveal when `revealed` is false. The sealed key holds no ciphertext: nothing here opens it.
 */
export function studyEvents({ right = 14, revealed = true, note = "", plan = readyPlan() } = {}): string[] {
  const { blind, key, seats } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
  const opened = { key, salt: "ab".repeat(32) };
  const commitment = commitmentOf(opened);
  const sealed: SealedKey = {
    v: 1,
    study,
    commitment,
    kdf: { rounds: 600_000, salt: "00".repeat(16) },
    iv: "00".repeat(12),
    ciphertext: "",
  };
  const { texts, write } = writer();
  write(lead, "study-locked", {
    plan,
    packet: blindPacketOf(plan, study, blind, commitment),
    sealed,
    seats,
    app: "0.1.0",
  });
  for (const { tray, order, samples } of key.trays.slice(0, plan.people)) {
    const odd = oddPlace(order) ?? 0;
    const choice = samples[tray <= right ? odd : (odd + 1) % 3]?.code ?? "";
    const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" };
    write(tablet, "tray-opened", { tray, clearance: "0".repeat(64) });
    write(tablet, "answer-kept", {
      tray,
      question: 1,
      choice,
      guess: tray % 4 === 0,
      elapsedMs: 41_000,
      screen,
      salt: "5a".repeat(32),
    });
    write(tablet, "tray-finished", { tray });
  }
  const heads = { [lead]: 1, [tablet]: 3 * plan.people };
  write(lead, "study-closed", { heads, knownUnsent: 0, note });
  if (revealed) write(lead, "key-revealed", { heads: { ...heads, [lead]: 2 }, opened });
  return texts;
}

export function writer() {
  const texts: string[] = [];
  const last = new Map<string, { seq: number; hash: string }>();
  const write = <K extends Kind>(device: string, kind: K, body: Body<K>) => {
    const before = last.get(device);
    const seq = (before?.seq ?? 0) + 1;
    const id = `01900000-0000-7000-8000-${String(texts.length + 1).padStart(12, "0")}`;
    const stream = { kind: "study" as const, id: study };
    const at = "2026-05-03T14:02:00.000Z";
    const written = writeEvent({ id, stream, device, seq, prev: before?.hash ?? null, at, kind, body });
    last.set(device, { seq, hash: written.hash });
    texts.push(written.text);
  };
  return { texts, write };
}

/** The study file of `studyEvents`, as it is parsed. */
export const studyFileOf = (events: string[]) => ({
  app: "0.1.0",
  exportedAt: "2026-05-03T16:00:00.000Z",
  study,
  quarantined: 0,
  events,
});

/** The events without those that `left` names by its place among the ones its device wrote, from 1. */
export const withoutEvents = (events: readonly string[], left: (device: "lead" | "tablet", seq: number) => boolean) =>
  events.filter((text) => {
    const { device, seq } = JSON.parse(text) as { device: string; seq: number };
    return !left(device === lead ? "lead" : "tablet", seq);
  });
