import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { noPreferenceChoice } from "../../src/model/ballot-event.ts";
import type { Plan } from "../../src/model/plan.ts";
import { commitmentOf } from "../../src/seal/commitment.ts";
import type { Picked } from "../analysis/study-records.ts";
import { lead, study, tablet, writer } from "./scenario.ts";

const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" };
const salt = "5a".repeat(32);

/** The events of a whole study of a plan, from lock to reveal; `ballot` writes what one tray's panelist answered. */
function studyOf(
  plan: Plan,
  people: number,
  ballot: (
    write: ReturnType<typeof writer>["write"],
    tray: number,
    samples: readonly { code: string; product: string }[],
  ) => void,
): string[] {
  const { blind, key, seats } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
  const opened = { key, salt: "ab".repeat(32) };
  const commitment = commitmentOf(opened);
  const kdf = { rounds: 600_000, salt: "00".repeat(16) };
  const sealed = { v: 1 as const, study, commitment, kdf, iv: "00".repeat(12), ciphertext: "" };
  const { texts, write } = writer();
  const packet = blindPacketOf(plan, study, blind, commitment);
  write(lead, "study-locked", { plan, packet, sealed, seats, app: "0.1.0" });
  for (const { tray, samples } of key.trays.slice(0, people)) {
    write(tablet, "tray-opened", { tray, clearance: "0".repeat(64) });
    ballot(write, tray, samples);
    write(tablet, "tray-finished", { tray });
  }
  const heads = { [lead]: 1, [tablet]: texts.length - 1 };
  write(lead, "study-closed", { heads, knownUnsent: 0, note: "" });
  write(lead, "key-revealed", { heads: { ...heads, [lead]: 2 }, opened });
  return texts;
}

/** Tray t is answered as `picked` says. */
export const preferenceEvents = (plan: Plan, picked: readonly Picked[]): string[] =>
  studyOf(plan, picked.length, (write, tray, samples) => {
    const what = picked[tray - 1] ?? "none";
    const wanted = plan.products[what === "first" ? 0 : 1]?.id;
    const code = samples.find(({ product }) => product === wanted)?.code ?? "";
    const choice = what === "none" ? noPreferenceChoice : code;
    write(tablet, "answer-kept", { tray, question: 1, choice, guess: false, elapsedMs: 9000, screen, salt });
  });

/** Tray t is marked as row t says: points of each product, in the order of the plan; null: could not judge. One attribute. */
export const lineEvents = (plan: Plan, rows: readonly (readonly (number | null)[])[]): string[] =>
  studyOf(plan, rows.length, (write, tray, samples) => {
    samples.forEach(({ code, product }, at) => {
      const points = rows[tray - 1]?.[plan.products.findIndex(({ id }) => id === product)] ?? null;
      write(tablet, "mark-kept", {
        tray,
        question: at + 1,
        code,
        attribute: plan.scale.attributes[0]?.id ?? "",
        mark: points === null ? null : { fraction: points / 100, start: "pointer", moves: 0, firstMs: 800 },
        why: points === null ? "not-perceived" : null,
        line: { lengthPx: 640, lengthMm: plan.scale.lengthMm },
        chewedSeconds: 10.2,
        hidden: false,
        elapsedMs: 4000,
        screen,
        salt,
      });
    });
  });
