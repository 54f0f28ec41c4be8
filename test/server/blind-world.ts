import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays, type Trays } from "../../src/design/trays.ts";
import { writeEvent } from "../../src/log/facts.ts";
import type { ScaleForm } from "../../src/model/attribute.ts";
import type { Body, Kind } from "../../src/model/event.ts";
import type { EnrollReply } from "../../src/model/http.ts";
import { answersOf, type BlindPacket, type BlindTray, questionsOf } from "../../src/model/packet.ts";
import type { Plan } from "../../src/model/plan.ts";
import { placeOfStep } from "../../src/model/steps.ts";
import { commitmentOf, withSalt } from "../../src/seal/commitment.ts";
import { House } from "./house.ts";

export const study = "11111111-1111-4111-8111-111111111111";

/** One way the world could be: the same kitchen and the same codes, with other products, another key, another salt. */
export type World = { plan: Plan; seed: string; salt: number };
/** How the packet is made of the trays; a leaky one is planted here to see that the test can fail. */
export type Packer = (plan: Plan, trays: Trays, commitment: string) => BlindPacket;
export const packer: Packer = (plan, trays, commitment) => blindPacketOf(plan, study, trays.blind, commitment);

/** Of the moment, not of the study: the date, and when the test wrote its small static files. */
const varying = new Set(["date", "etag", "last-modified"]);

/**
 * Plays a whole study through a real server and writes down every byte that reaches two tablets: statuses, headers
 * and bodies, from enrollment to after the reveal. Masked are the commitment, which is a hash over fresh random bytes,
 * what the server draws by lot (ids, tokens, the incarnation, the number of an error), and dates.
 */
export async function bytesOnTablets({ plan, seed, salt }: World, pack: Packer = packer): Promise<string> {
  const trays = makeTrays(plan, study, { seed, codes: seeded("the same codes in every world", "codes") });
  const opened = withSalt(trays.key, (length) => new Uint8Array(length).fill(salt));
  const commitment = commitmentOf(opened);
  const packet = pack(plan, trays, commitment);
  const house = await House.open();
  const tape: string[] = [];
  const masks: [string, string][] = [[commitment, "COMMITMENT"]];
  const record = async (method: string, path: string, call: Parameters<House["call"]>[2] = {}) => {
    const reply = await house.call(method, path, call);
    const headers = [...reply.headers]
      .filter(([name]) => !varying.has(name))
      .map(([name, value]) => `${name}: ${value}`);
    tape.push(`${method} ${path.replace(/code=.*/, "")}`, String(reply.status), ...headers, reply.text);
    return reply;
  };
  try {
    const lead = await house.lead();
    const write = writer();
    const lock: Body<"study-locked"> = {
      plan,
      packet,
      sealed: {
        v: 1,
        study,
        commitment,
        kdf: { rounds: 600_000, salt: "00" },
        iv: "00",
        ciphertext: "AA==",
      },
      seats: trays.seats,
      app: "test",
    };
    await house.push(lead, [
      write(lead.device, "draft-saved", { base: null, merged: [], plan }),
      write(lead.device, "study-locked", lock),
    ]);
    const tablets: EnrollReply[] = [];
    for (const name of ["A", "B"]) {
      const code = await house.code(lead, "panel", study);
      const reply = await record("POST", "/api/enroll", { body: { code, name } });
      const tablet = reply.json as EnrollReply;
      tablets.push(tablet);
      masks.push(
        [tablet.device, `DEVICE ${name}`],
        [tablet.token, `TOKEN ${name}`],
        [tablet.incarnation, "INCARNATION"],
      );
    }
    const look = async () => {
      for (const { token } of tablets) {
        await record("GET", "/api/panel", { token });
        await record("GET", "/api/studies", { token });
        await record("GET", `/api/studies/${study}/events?after=0`, { token });
        await record("GET", "/api/devices", { token });
      }
    };
    await look();
    const [first, second, third] = trays.blind;
    const [a, b] = tablets;
    if (!first || !second || !third || !a || !b) throw new Error("the world is too small");
    const push = async (tablet: EnrollReply, events: string[]) =>
      record("POST", "/api/events", { token: tablet.token, body: { events, attachments: [], status: null } });
    const ballots = [
      [a, ballot(write, a.device, packet, first, 0)],
      [b, ballot(write, b.device, packet, first, 1)],
      [b, ballot(write, b.device, packet, second, (answersOf(packet, second).length || second.codes.length) - 1)],
      [b, onPaper(write, b.device, packet, third, 1)],
      [a, onPaper(write, a.device, packet, third, 2)],
    ] as const;
    for (const [tablet, events] of ballots) await push(tablet, events);
    await look();
    const ends = ballots.map(([, events]) => events.length);
    const countOf = (tablet: EnrollReply): number =>
      ends.reduce((sum, count, at) => (ballots[at]?.[0] === tablet ? sum + count : sum), 0);
    const heads = { [a.device]: countOf(a), [b.device]: countOf(b), [lead.device]: 2 };
    await house.push(lead, [write(lead.device, "study-closed", { heads, knownUnsent: 0, note: "" })]);
    await house.push(lead, [write(lead.device, "key-revealed", { heads, opened })]);
    await look();
    await record("GET", "/panel/");
  } finally {
    await house.close();
  }
  const masked = masks.reduce((text, [secret, name]) => text.replaceAll(secret, name), tape.join("\n"));
  return masked.replace(/"errorId":"[0-9A-Z]{4}-[0-9A-Z]{4}"/g, '"errorId":"LOT"');
}

/** A whole ballot of a tray: the choice of the answer at a place, marks that begin there, or chewed portions. */
export function ballot(
  write: ReturnType<typeof writer>,
  device: string,
  packet: BlindPacket,
  blind: BlindTray,
  place: number,
): string[] {
  const { line } = packet;
  const { tray, codes } = blind;
  const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 1, pointer: "touch" };
  const common = { tray, elapsedMs: 5, screen, salt: "5a".repeat(32) };
  const marks = () =>
    codes.flatMap((code, at) =>
      (line?.attributes ?? []).map(({ id, form }, attribute, { length }) =>
        write(device, "mark-kept", {
          ...common,
          question: at * length + attribute + 1,
          code,
          attribute: id,
          mark: { fraction: fractionOf(form, at + place, codes.length), start: "pointer", moves: 0, firstMs: 3 },
          why: null,
          line: form.kind === "line" ? { lengthPx: 624, lengthMm: 120 } : null,
          chewedSeconds: 10,
          hidden: false,
        }),
      ),
    );
  const choices = () => {
    const answers = answersOf(packet, blind);
    // a ranking has no list of answers: its codes are put in order from that place on
    const order = [...codes.slice(place), ...codes.slice(0, place)].join(" ");
    const choice = packet.ranking ? order : (answers[place % answers.length] ?? "");
    return Array.from({ length: questionsOf(packet, blind) }, (_, at) =>
      write(device, "answer-kept", { ...common, question: at + 1, choice, guess: false }),
    );
  };
  const portions = () =>
    codes.map((code, at) =>
      write(device, "portion-chewed", {
        ...common,
        ...{ question: at + 1, code, chewedSeconds: 15 + place, whole: place === 0, hidden: false },
      }),
    );
  return [
    write(device, "tray-opened", { tray, clearance: "0".repeat(64) }),
    ...(line ? marks() : packet.chew ? portions() : choices()),
    write(device, "tray-finished", { tray }),
  ];
}

/** A ballot on paper as one of two people types it in: the first answer, or the first place of a line or of steps. */
function onPaper(
  write: ReturnType<typeof writer>,
  device: string,
  packet: BlindPacket,
  blind: BlindTray,
  typing: 1 | 2,
): string[] {
  // portions are weighed: no tablet types their ballots in
  if (packet.chew) return [];
  const { tray, codes } = blind;
  const choice = packet.ranking ? codes.join(" ") : (answersOf(packet, blind)[0] ?? "");
  const choices = Array.from({ length: questionsOf(packet, blind) }, (_, at) => ({
    ...{ question: at + 1, choice, guess: false },
  }));
  const marks = codes.flatMap((code, at) =>
    (packet.line?.attributes ?? []).map(({ id, form }, place, { length }) => ({
      ...{ question: at * length + place + 1, code, attribute: id, why: null },
      ...(form.kind === "line" ? { mm: 30 * at, step: null } : { mm: null, step: 1 }),
    })),
  );
  return [
    write(device, "paper-typed", {
      ...{ tray, typing, against: null, agrees: null, clearance: "0".repeat(64), consent: null },
      ...{ stopped: null, lineMm: packet.line?.lengthMm ? 120 : null, salt: "5a".repeat(32) },
      ...(packet.line ? { choices: [], marks } : { choices, marks: [] }),
    }),
  ];
}

/** The places that a ballot marks, one after the other: parts of a line, or steps. */
function fractionOf(form: ScaleForm, turn: number, codes: number): number {
  return form.kind === "line"
    ? (turn % codes) / codes
    : placeOfStep((turn % form.labels.length) + 1, form.labels.length);
}

/** Event texts with ids and times by count, so that nothing in them differs between worlds. */
export function writer() {
  const last = new Map<string, { seq: number; hash: string }>();
  let count = 0;
  return <K extends Kind>(device: string, kind: K, body: Body<K>): string => {
    count += 1;
    const before = last.get(device);
    const written = writeEvent({
      id: `01900000-0000-7000-8000-${String(count).padStart(12, "0")}`,
      stream: { kind: "study", id: study },
      device,
      seq: (before?.seq ?? 0) + 1,
      prev: before?.hash ?? null,
      at: "2026-05-03T10:00:00.000Z",
      kind,
      body,
    });
    last.set(device, { seq: written.fact.seq, hash: written.hash });
    return written.text;
  };
}
