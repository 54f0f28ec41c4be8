import { blindPacketOf } from "../design/packet.ts";
import type { Uniform } from "../design/random.ts";
import { drawRaw } from "../design/raw-draw.ts";
import { openParts } from "../design/readiness.ts";
import { makeTrays } from "../design/trays.ts";
import type { Body } from "../model/event.ts";
import type { OpenedKey } from "../model/key.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { newPassphrase } from "../seal/passphrase.ts";
import { cryptoUniform, newSeed, type RandomBytes } from "../seal/random.ts";
import { sealKey } from "../seal/seal.ts";
import { listed } from "../words/en/organizer.ts";
import { planPartNames } from "../words/en/planning.ts";

export type Locked = { body: Body<"study-locked">; opened: OpenedKey; passphrase: string };

/**
 * What locking a plan puts into the log, and what only the lead's page may hold.
 *
 * Takes    plan with nothing missing; study: id; app: version; random: a cryptographic source of bytes
 * Returns  body: the event, with the key sealed; opened and passphrase: for the papers, never to be stored
 * Throws   Problem "plan/not-ready" (naming the open parts), "plan/too-many-trays", "lock/insecure-origin"
 */
export async function lockPlan(plan: Plan, study: string, app: string, random: RandomBytes): Promise<Locked> {
  const open = openParts(plan);
  if (open.length > 0) {
    const parts = [...new Set(open.map(({ part }) => planPartNames[part]))];
    throw problem("plan/not-ready", { missing: listed(parts) });
  }
  const codes: Uniform = cryptoUniform(random);
  const { blind, key, seats, pots } = makeTrays(plan, study, { seed: newSeed(random), codes });
  const passphrase = newPassphrase(random);
  const { sealed, opened } = await sealKey(key, passphrase, random);
  const packet = blindPacketOf(plan, study, blind, sealed.commitment);
  const draw = drawRaw(plan, newSeed(random));
  return { body: { plan, packet, sealed, seats, app, pots, ...(draw ? { draw } : {}) }, opened, passphrase };
}

/** Did somebody write the passphrase down? Its first and last word, typed back. Case and spaces do not matter. */
export function knowsPassphrase(passphrase: string, first: string, last: string): boolean {
  const words = passphrase.split(" ");
  const same = (typed: string, word: string | undefined) => typed.trim().toLowerCase() === word;
  return same(first, words[0]) && same(last, words.at(-1));
}

/**
 * Refuses where the key could not be sealed.
 * Throws Problem "lock/insecure-origin" naming the address at hand.
 */
export function requireSecure(place: { isSecureContext: boolean; origin: string }): void {
  if (!place.isSecureContext) throw problem("lock/insecure-origin", { origin: place.origin });
}
