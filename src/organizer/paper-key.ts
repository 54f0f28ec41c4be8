import type { Body } from "../model/event.ts";
import type { OpenedKey } from "../model/key.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { commitmentOf } from "../seal/commitment.ts";

/**
 * The key as the sealed page prints it, short enough for one QR code: seed, commitment salt and, for each tray, its
 * order and the number of each cup's batch within its wave ("7:AAB:1.1.12"). Where there is a reference cup it comes
 * first of both, parted from the order by a dot ("7:A.BA:2.1.2"); such texts bear a mark of their own, and those from
 * before still read. Behind the trays stands each pot with the letter of its product and the number of its batch among that
 * product's ("KT:A:2"). With the locked plan and packet, which are in the log, this gives the whole key back. Capital
 * letters, digits, ":" and "." only: a QR code packs those tightly.
 */
const marks = { plain: "CLOCHEKEY1", withReference: "CLOCHEKEY2" } as const;

/** The printed text of an opened key. Throws when the key does not belong to the plan: a caller's mistake. */
export function paperKeyText(opened: OpenedKey, plan: Plan, trays: Body<"study-locked">["packet"]["trays"]): string {
  const waveOf = new Map(trays.map(({ tray, wave }) => [tray, wave]));
  const rows = opened.key.trays.map(({ tray, order, samples, reference }) => {
    const batches = plan.waves[(waveOf.get(tray) ?? 0) - 1]?.batches ?? {};
    const places = [...(reference ? [reference] : []), ...samples].map(({ product, batch }) => {
      const at = batches[product]?.indexOf(batch) ?? -1;
      if (at < 0) throw new Error(`tray ${tray}: batch ${batch} is not in the plan`);
      return at + 1;
    });
    return `${tray}:${order.replace(":", ".")}:${places.join(".")}`;
  });
  const mark = opened.key.trays.some(({ reference }) => reference) ? marks.withReference : marks.plain;
  const pots = (opened.key.pots ?? []).map(({ pot, product, batch }) => {
    const at = plan.products.findIndex(({ id }) => id === product);
    return `${pot}:${letterAt(at)}:${batchesOf(plan, product).indexOf(batch) + 1}`;
  });
  return [mark, opened.key.seed, opened.salt, ...rows, ...pots].join(" ").toUpperCase();
}

const firstLetter = "A".codePointAt(0) ?? 0;
const letterAt = (at: number): string => String.fromCodePoint(firstLetter + at);

/** Every batch of a product once, in the order of the waves. */
const batchesOf = ({ waves }: Plan, product: string): string[] => [
  ...new Set(waves.flatMap(({ batches }) => batches[product] ?? [])),
];

/**
 * The key from the text of a sealed page, typed or scanned; spaces, line ends and case do not matter.
 * Throws Problem "key/page-unreadable" when it is not such a text or not all of it, "key/page-mistyped" when it gives
 * another key than was locked (a wrong letter anywhere does that)
 */
export function readPaperKey(text: string, lock: Body<"study-locked">): OpenedKey {
  const [head, seed = "", salt = "", ...rows] = text.trim().toLowerCase().split(/\s+/);
  const mark = lock.packet.reference ? marks.withReference : marks.plain;
  const labels = new Set((lock.pots ?? []).flatMap(({ pots }) => pots));
  const all = lock.packet.trays.length;
  if (head !== mark.toLowerCase() || rows.length !== all + labels.size) throw unreadable(lock.packet);
  const trays = rows.slice(0, all).map((row, at) => trayOf(row, at, lock));
  const pots = lock.pots ? { pots: rows.slice(all).map((row) => potOf(row, lock)) } : {};
  const opened = { key: { v: 1 as const, study: lock.packet.study, seed, trays, ...pots }, salt };
  if (commitmentOf(opened) !== lock.sealed.commitment) throw problem("key/page-mistyped");
  return opened;
}

function trayOf(row: string, at: number, { plan, packet }: Body<"study-locked">): OpenedKey["key"]["trays"][number] {
  const [number, typed = "", numbers = ""] = row.split(":");
  const blind = packet.trays[at];
  const letters = typed.toUpperCase().split(".");
  const samples = letters.at(-1) ?? "";
  const before = letters.slice(0, -1);
  if (!blind || Number(number) !== blind.tray || samples.length !== blind.codes.length) throw unreadable(packet);
  if (before.length !== (packet.reference ? 1 : 0) || before.some((letter) => letter.length !== 1))
    throw unreadable(packet);
  const cups = [...before, ...samples];
  const places = numbers.split(".");
  if (places.length !== cups.length) throw unreadable(packet);
  const batches = plan.waves[blind.wave - 1]?.batches ?? {};
  const filled = cups.map((letter, place) => {
    const product = plan.products[(letter.codePointAt(0) ?? 0) - firstLetter]?.id ?? "";
    const batch = batches[product]?.[Number(places[place]) - 1];
    if (batch === undefined) throw unreadable(packet);
    return { product, batch };
  });
  const [reference] = packet.reference ? filled : [];
  const coded = filled.slice(before.length).map((cup, place) => ({ code: blind.codes[place] ?? "", ...cup }));
  return { tray: blind.tray, order: letters.join(":"), samples: coded, ...(reference ? { reference } : {}) };
}

function potOf(row: string, { plan, packet }: Body<"study-locked">): NonNullable<OpenedKey["key"]["pots"]>[number] {
  const [pot = "", letter = "", number] = row.toUpperCase().split(":");
  const product = plan.products[(letter.codePointAt(0) ?? 0) - firstLetter]?.id ?? "";
  const batch = batchesOf(plan, product)[Number(number) - 1];
  if (batch === undefined) throw unreadable(packet);
  return { pot, product, batch };
}

const unreadable = (packet: Body<"study-locked">["packet"]) =>
  problem("key/page-unreadable", { trays: packet.trays.length });
