import { blindPacketOf } from "../design/packet.ts";
import { makeTrays } from "../design/trays.ts";
import type { Body } from "../model/event.ts";
import type { OpenedKey } from "../model/key.ts";
import type { Plan } from "../model/plan.ts";
import { sealKey } from "../seal/seal.ts";
import { chance, demoPassphrase, designSeed, seededBytes } from "./chance.ts";

export type Lock = { body: Body<"study-locked">; opened: OpenedKey };

/**
 * Locks a plan of the demo as the lead's page does, only with seeded chance.
 *
 * Takes    name: of the study within the demo ("Q1"), for its seeds; study: its id; app: version
 * Throws   Problem "lock/insecure-origin" where there is no WebCrypto
 */
export async function lockDemo(name: string, plan: Plan, study: string, app: string): Promise<Lock> {
  const random = { seed: designSeed(name), codes: chance(`codes ${name}`) };
  const { blind, key, seats, pots } = makeTrays(plan, study, random);
  const { sealed, opened } = await sealKey(key, demoPassphrase(), seededBytes(`seal ${name}`));
  const packet = blindPacketOf(plan, study, blind, sealed.commitment);
  return { body: { plan, packet, sealed, seats, app, pots }, opened };
}

/** The cups of a tray, with what is in them. */
export function cupsOf({ opened }: Lock, tray: number): { code: string; product: string }[] {
  return opened.key.trays.find((each) => each.tray === tray)?.samples ?? [];
}

/** The code of a product on a tray; of several cups of it, the first. */
export const codeOf = (lock: Lock, tray: number, product: string): string =>
  cupsOf(lock, tray).find((cup) => cup.product === product)?.code ?? "";

/** The code of a triangle's odd cup (right), or of one of the two that are alike. */
export function triangleCode(lock: Lock, tray: number, right: boolean): string {
  const cups = cupsOf(lock, tray);
  const alike = (product: string) => cups.filter((cup) => cup.product === product).length;
  return cups.find(({ product }) => (alike(product) === 1) === right)?.code ?? "";
}
