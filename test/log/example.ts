import { emptyPlan } from "../../src/design/readiness.ts";
import { writeEvent } from "../../src/log/facts.ts";
import { sha256 } from "../../src/model/canonical.ts";
import type { Body, Fact, Kind } from "../../src/model/event.ts";

/** A small locked study for tests of the log: three trays and a spare, invented codes, a key that says nothing. */
export const study = "11111111-1111-4111-8111-111111111111";
export const lead = "22222222-2222-4222-8222-222222222222";
export const tabletA = "aaaaaaaa-aaaa-4aaa-8aaa-aaaaaaaaaaaa";
export const tabletB = "bbbbbbbb-bbbb-4bbb-8bbb-bbbbbbbbbbbb";
const products = ["33333333-3333-4333-8333-333333333333", "44444444-4444-4444-8444-444444444444"] as const;
export const stream = { kind: "study" as const, id: study };

/** Writes events as devices do: gapless sequence numbers, chained hashes, ids in order of writing. */
export class Writer {
  #last = new Map<string, { seq: number; hash: string }>();
  #count = 0;
  readonly texts = new Map<string, string>();

  write<K extends Kind>(device: string, kind: K, body: Body<K>): Fact {
    const last = this.#last.get(device);
    this.#count += 1;
    const id = `01900000-0000-7000-8000-${String(this.#count).padStart(12, "0")}`;
    const at = `2026-05-03T12:00:${String(this.#count % 60).padStart(2, "0")}.000Z`;
    const written = writeEvent({
      id,
      stream,
      device,
      seq: (last?.seq ?? 0) + 1,
      prev: last?.hash ?? null,
      at,
      kind,
      body,
    });
    this.#last.set(device, { seq: written.fact.seq, hash: written.hash });
    this.texts.set(id, written.text);
    return written.fact;
  }

  head(device: string): number {
    return this.#last.get(device)?.seq ?? 0;
  }

  /** Locks the plan; with `fifth`, the codes of a second spare. */
  lock(fifth: string[] | null = null): Fact {
    const plan = {
      ...emptyPlan(),
      title: "Steam first",
      people: 3,
      spares: 1,
      products: [
        { id: products[0], name: "current", preparation: "dry oven" },
        { id: products[1], name: "new", preparation: "steam first" },
      ],
    };
    const codes = [
      ["482", "715", "309"],
      ["264", "518", "937"],
      ["146", "385", "672"],
      ["529", "813", "274"],
      ...(fifth ? [fifth] : []),
    ];
    const trays = codes.map((list, index) => ({ tray: index + 1, wave: 1, spare: index >= 3, codes: list }));
    return this.write(lead, "study-locked", {
      plan,
      packet: {
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
        palette: "day",
        allergens: { version: sha256("list"), contains: ["egg"], mayContain: [], other: [] },
        cautions: ["choking"],
        consent: null,
        swallow: "swallow",
        cleanser: "water",
        pauseSeconds: 45,
        retaste: true,
        warmUp: true,
        trays,
        commitment: sha256("commitment"),
      },
      sealed: {
        v: 1,
        study,
        commitment: sha256("commitment"),
        kdf: { rounds: 600_000, salt: "00" },
        iv: "00",
        ciphertext: "AA==",
      },
      seats: [1, 2, 3].map((seat) => ({ seat, trays: [seat] })),
      app: "test",
    });
  }

  /** A whole ballot of one tray. */
  ballot(device: string, tray: number, choice: string): Fact[] {
    return [
      this.write(device, "tray-opened", { tray, clearance: sha256("list") }),
      this.write(device, "answer-kept", {
        tray,
        question: 1,
        choice,
        guess: false,
        elapsedMs: 1000,
        screen: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
        salt: "5a".repeat(32),
      }),
      this.write(device, "tray-finished", { tray }),
    ];
  }

  reveal(heads: Record<string, number>): Fact {
    const trays = [
      { tray: 1, order: "AAB", codes: ["482", "715", "309"] },
      { tray: 2, order: "ABA", codes: ["264", "518", "937"] },
      { tray: 3, order: "BBA", codes: ["146", "385", "672"] },
      { tray: 4, order: "BAB", codes: ["529", "813", "274"] },
    ].map(({ tray, order, codes }) => ({
      tray,
      order,
      samples: codes.map((code, place) => ({ code, product: products[order[place] === "A" ? 0 : 1], batch: "1" })),
    }));
    return this.write(lead, "key-revealed", { heads, opened: { key: { v: 1, study, seed: "00", trays }, salt: "00" } });
  }
}
