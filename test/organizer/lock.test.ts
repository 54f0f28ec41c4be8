import { beforeAll, describe, expect, test } from "vitest";
import { drawRaw } from "../../src/design/raw-draw.ts";
import type { Plan } from "../../src/model/plan.ts";
import { knowsPassphrase, type Locked, lockPlan, requireSecure } from "../../src/organizer/lock.ts";
import { paperKeyText, readPaperKey } from "../../src/organizer/paper-key.ts";
import { qrPath } from "../../src/organizer/qr.tsx";
import { openKey } from "../../src/seal/open.ts";
import { randomBytes } from "../../src/seal/random.ts";
import { readyPlan } from "../design/scenario.ts";
import { problemOf } from "../problem-of.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";

/** Bytes that are the same in every run: what a plan does to a packet shows only when chance stands still. */
function fixedBytes(): (length: number) => Uint8Array<ArrayBuffer> {
  let state = 7;
  return (length) =>
    Uint8Array.from({ length }, () => {
      state = (state * 1103515245 + 12345) % 2147483648;
      return (state >> 16) & 255;
    });
}

const telling = {
  title: "Zucchini title",
  objective: "Zucchini objective",
  ifYes: "Zucchini yes",
  ifNo: "Zucchini no",
  place: "Zucchini place",
  masking: "Zucchini masking",
  raw: { drawn: "drawn", unit: "pieces", divided: false, perBatch: 2 },
} satisfies Partial<Plan>;

function tellingPlan(): Plan {
  const plan = readyPlan(telling);
  const [a, b] = plan.products;
  if (!a || !b) throw new Error("the scenario has two products");
  return {
    ...plan,
    products: [
      { ...a, name: "Artichoke", preparation: "Zucchini oven" },
      { ...b, name: "Beetroot", preparation: "Zucchini steam" },
    ],
    waves: plan.waves.map((wave) => ({
      ...wave,
      starts: "Zucchini time",
      batches: { [a.id]: ["Zucchini pot 1", "Zucchini pot 2"], [b.id]: ["Zucchini pan 1", "Zucchini pan 2"] },
    })),
    serving: { ...plan.serving, vessel: "Zucchini cup", warmUpWhat: "Zucchini warm-up" },
  };
}

describe("a locked plan", () => {
  let locked: Locked;
  const plan = tellingPlan();
  beforeAll(async () => {
    locked = await lockPlan(plan, study, "0.1.0", randomBytes);
  });

  test("the packet for the tablets holds no product, batch, title, seed or id of the plan", () => {
    const text = JSON.stringify(locked.body.packet);
    const { key, salt } = locked.opened;
    const secrets = [
      "Zucchini",
      ...plan.products.flatMap(({ id, name }) => [id, name]),
      ...plan.waves.map(({ id }) => id),
      key.seed,
      salt,
      locked.passphrase,
      "AAB",
      "order",
    ];
    for (const secret of secrets) expect(text.includes(secret), secret).toBe(false);
  });

  test("the event holds the key only sealed", () => {
    const text = JSON.stringify(locked.body);
    expect(text.includes(locked.opened.key.seed)).toBe(false);
    expect(text.includes(locked.opened.salt)).toBe(false);
    expect(text.includes(locked.passphrase)).toBe(false);
  });

  test("what is drawn of raw pieces stands in the event from a seed of its own, names no code and is not on the tablets", () => {
    const { draw, packet } = locked.body;
    expect(draw).toEqual(drawRaw(plan, draw?.seed ?? ""));
    expect(draw?.cooks).toHaveLength(4);
    const fields = draw?.cooks.flatMap((cook) => Object.keys(cook)) ?? [];
    expect(new Set(fields)).toEqual(new Set(["wave", "product", "batch", "pieces"]));
    expect(JSON.stringify(packet)).not.toContain(draw?.seed);
  });

  test("the passphrase opens what was sealed, and it is the key of these trays", async () => {
    const opened = await openKey(locked.body.sealed, ` ${locked.passphrase.toUpperCase()} `);
    expect(opened).toEqual(locked.opened);
    expect(opened.key.trays.map(({ tray }) => tray)).toEqual(locked.body.packet.trays.map(({ tray }) => tray));
    for (const { tray, samples } of opened.key.trays) {
      const codes = locked.body.packet.trays.find((blind) => blind.tray === tray)?.codes;
      expect(samples.map(({ code }) => code)).toEqual(codes);
    }
  });

  test("the sealed page's text gives the same key back, however it is broken into lines", () => {
    const text = paperKeyText(locked.opened, plan, locked.body.packet.trays);
    expect(readPaperKey(`\n ${text.toLowerCase().replaceAll(" ", " \n")} `, locked.body)).toEqual(locked.opened);
  });

  test("the sealed page's text fits a QR code", () => {
    expect(qrPath(paperKeyText(locked.opened, plan, locked.body.packet.trays))?.modules).toBeGreaterThan(20);
  });

  test("one wrong sign on the sealed page is noticed", () => {
    const text = paperKeyText(locked.opened, plan, locked.body.packet.trays);
    const wrongSeed = text.replace(/ [0-9A-F]/, (sign) => (sign === " 0" ? " 1" : " 0"));
    const mismatch = problemOf(() => readPaperKey(wrongSeed, locked.body));
    expect(mismatch.code).toBe("key/page-mistyped");
    expect(problemOf(() => readPaperKey(text.split(" ").slice(0, -1).join(" "), locked.body)).code).toBe(
      "key/page-unreadable",
    );
    expect(problemOf(() => readPaperKey("nothing of the kind", locked.body)).code).toBe("key/page-unreadable");
  });

  test("its first and last word, typed back in any case, show that it was written down", () => {
    const words = locked.passphrase.split(" ");
    const [first = "", last = ""] = [words[0], words.at(-1)];
    expect(knowsPassphrase(locked.passphrase, ` ${first.toUpperCase()}`, `${last} `)).toBe(true);
    expect(knowsPassphrase(locked.passphrase, first, "")).toBe(false);
    expect(knowsPassphrase(locked.passphrase, last, `${first}x`)).toBe(false);
  });
});

test("products swapped and renamed with the same chance: the packet stays the same but for the commitment", async () => {
  const plan = tellingPlan();
  const [a, b] = plan.products;
  if (!a || !b) throw new Error("the scenario has two products");
  const swapped: Plan = {
    ...plan,
    products: [
      { ...b, name: "Celery root" },
      { ...a, name: "Dill" },
    ],
  };
  const packets = await Promise.all(
    [plan, swapped].map(async (each) => (await lockPlan(each, study, "0.1.0", fixedBytes())).body.packet),
  );
  const [one, other] = packets.map((packet) => JSON.stringify({ ...packet, commitment: "" }));
  expect(one).toBe(other);
  expect(packets[0]?.commitment).not.toBe(packets[1]?.commitment);
});

test("the sealed page gives the key back when a product has forty batches in a wave", async () => {
  const plan = readyPlan({ people: 48, spares: 0 });
  const [wave] = plan.waves;
  if (!wave) throw new Error("the scenario has waves");
  const pots = Array.from({ length: 40 }, (_, at) => `Pot ${at + 1}`);
  const batches = Object.fromEntries(plan.products.map(({ id }) => [id, pots]));
  const many = { ...plan, waves: [{ ...wave, people: 48, batches }] };
  const locked = await lockPlan(many, study, "0.1.0", randomBytes);
  const used = new Set(locked.opened.key.trays.flatMap(({ samples }) => samples.map(({ batch }) => batch)));
  expect(used.has("Pot 40")).toBe(true);
  const text = paperKeyText(locked.opened, many, locked.body.packet.trays);
  expect(readPaperKey(text, locked.body)).toEqual(locked.opened);
  expect(qrPath(text)).not.toBeNull();
});

test("a plan with open parts is refused, and the parts are named", async () => {
  await expect(lockPlan(readyPlan({ ifNo: "", looks: null }), study, "0.1.0", randomBytes)).rejects.toMatchObject({
    problem: { code: "plan/not-ready", details: { missing: "Question and Samples" } },
  });
});

test("an insecure address is refused by name", () => {
  const origin = "http://kitchen.example:8080";
  const problem = problemOf(() => requireSecure({ isSecureContext: false, origin }));
  expect(problem).toEqual({ code: "lock/insecure-origin", details: { origin } });
  expect(() => requireSecure({ isSecureContext: true, origin: "https://kitchen.example" })).not.toThrow();
});
