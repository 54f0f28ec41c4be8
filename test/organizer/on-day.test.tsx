// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import type { Plan } from "../../src/model/plan.ts";
import { isHolding, usualLimits } from "../../src/model/safety-limit.ts";
import { trayLabel } from "../../src/model/tray.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { Bar } from "../../src/organizer/bar.tsx";
import { freeLabel } from "../../src/organizer/day-write.ts";
import { KitchenStudy } from "../../src/organizer/kitchen-today.tsx";
import { dayStepAddress, readRoute, studyAddress } from "../../src/organizer/route.ts";
import { Study } from "../../src/organizer/study.tsx";
import { minutesToStart } from "../../src/organizer/wave-clock.ts";
import { organizer } from "../../src/words/en/organizer.ts";
import { dayWords } from "../../src/words/en/organizer-day.ts";
import { onDayWords as words } from "../../src/words/en/organizer-on-day.ts";
import { readyPlan } from "../design/scenario.ts";
import { asLead, device, newLead, now, stream, study } from "./lead-page.tsx";

/** Poultry and the limits of holding. */
const limits = usualLimits().filter((limit) => isHolding(limit) || limit.food.startsWith("Poultry"));
const plan = readyPlan({ limits });
const trays = makeTrays(plan, study, { seed: "00", codes: seeded("codes of this test", "codes") });
const commitment = "0".repeat(64);
const pots = trays.pots[0]?.pots ?? [];
const [first = "", ...others] = pots;

let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
  await lock(plan);
});
async function lock(plan: Plan): Promise<void> {
  await lead.store.append(device, now, {
    stream,
    kind: "study-locked",
    body: {
      plan,
      packet: blindPacketOf(plan, study, trays.blind, commitment),
      sealed: { v: 1, study, commitment, kdf: { rounds: 600_000, salt: "00" }, iv: "00", ciphertext: "" },
      seats: trays.seats,
      app: "test",
      pots: trays.pots,
    },
  });
}
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

const kitchen = (): Lead => ({ ...lead, who: { ...lead.who, role: "kitchen" } });
const click = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const stopped = () => screen.queryAllByRole("alert").map(({ textContent }) => textContent ?? "");

/** Opens a page of the study as the kitchen, and waits until it is there. */
async function open(step: "reading" | "tray" | "batch" | null, of = 1): Promise<void> {
  cleanup();
  const route =
    step === null ? { page: "study" as const, id: study } : { page: "day-step" as const, id: study, step, of };
  asLead(kitchen(), <KitchenStudy route={route} />);
  await screen.findByRole("heading", { level: 1 });
}

/** Types a core temperature of each pot, and returns what the page said to the last one. */
async function read(which: readonly string[], celsius: string): Promise<string> {
  await open("reading");
  for (const pot of which) {
    fireEvent.click(screen.getByRole("radio", { name: pot }));
    fireEvent.input(screen.getByLabelText(words.reading.celsius), { target: { value: celsius } });
    click(words.reading.submit);
    await waitFor(() => expect(said()).toMatch(new RegExp(`ot ${pot}\\b.*${celsius}`)));
  }
  return said();
}
/** Writes down of each pot that it leaves the heat now. */
async function leave(which: readonly string[]): Promise<void> {
  await open("reading");
  fireEvent.click(screen.getByRole("radio", { name: words.reading.kinds[1].label }));
  for (const pot of which) {
    fireEvent.click(screen.getByRole("radio", { name: pot }));
    click(words.reading.submit);
    await waitFor(() => expect(said()).toMatch(new RegExp(`ot ${pot}\\b.*left the heat`)));
  }
}
const said = () => document.getElementById("reading-said")?.textContent ?? "";

/** Touches the first button of a turn once it can be touched; `refused`: although it says that it does nothing. */
const turn = async (name: "Filled" | "Checked" | "Served", refused = false): Promise<void> => {
  const ready = () => {
    const [button] = screen.getAllByRole("button", { name: new RegExp(`^${name}`) });
    if (!refused) expect(button?.getAttribute("aria-disabled")).toBeNull();
    return button ?? expect.fail("there is a button");
  };
  fireEvent.click(await waitFor(ready));
};
const handled = async (): Promise<string[]> =>
  (await lead.store.ownFacts(stream)).flatMap((fact) => (fact.kind === "tray-handled" ? [fact.body.turn] : []));

test("below the limit, undercooked by design: allowed by whom the lock named, and that is taken back", async () => {
  await lead.store.close();
  lead = await newLead();
  const raw = readyPlan({ limits, cautionsApplying: ["undercooked"], responsible: "Odalys Brandt" });
  await lock(raw);
  expect(await read([first], "60")).toMatch(/^Stop /);
  expect(screen.getByText(words.reading.allowHint("Odalys Brandt"))).toBeTruthy();
  click(words.reading.allow("Odalys Brandt"));
  await waitFor(() => expect(said()).toBe(words.reading.allowed(first, "Odalys Brandt")));
  await open(null);
  await waitFor(() => expect(stopped()).toEqual([]));
  click(/take back : allowed by Odalys Brandt/);
  await waitFor(() => expect(stopped().join()).toContain(words.wave.blocked(1)));
});

describe("a wave on a phone of the kitchen", () => {
  test("a reading below the limit stops the wave, and nothing is served; one above frees it", async () => {
    // 74 °C for poultry: the chart of USDA in the table of limits (seen as an excerpt)
    expect(await read(others, "74")).toContain(words.reading.passes(others.at(-1) ?? "", "74"));
    const answer = await read([first], "73.9");
    expect(answer).toMatch(
      /^Stop Put pot [A-Z]{2} back to the heat and read it again. It read 73.9\u00a0\u00b0C, limit 74/,
    );
    await open(null);
    await waitFor(() => expect(stopped().join()).toContain(words.wave.blocked(1)));
    await turn("Filled");
    await turn("Checked");
    await turn("Served", true);
    await waitFor(() => expect(stopped().filter((text) => text.includes("73.9"))).toHaveLength(2));
    expect(await handled()).toEqual(["filled", "checked"]);

    expect(await read([first], "74")).toContain(words.reading.passes(first, "74"));
    await leave(others);
    await open(null);
    await screen.findByText(words.wave.notYet(1, [words.wave.writeLeft([first])]));
    await turn("Served", true);
    await waitFor(() => expect(stopped().join()).toContain(words.wave.writeLeft([first])));
    expect(await handled()).toEqual(["filled", "checked"]);

    await leave([first]);
    await open(null);
    await turn("Served");
    await waitFor(async () => expect(await handled()).toEqual(["filled", "checked", "served"]));
    expect(stopped()).toEqual([]);
  });

  test("another batch for a wave of which a tray is out: the form says which keeps the old one, and so does the entry", async () => {
    await read(pots, "75");
    await leave(pots);
    await open("tray");
    await turn("Filled");
    await turn("Checked");
    await turn("Served");
    await waitFor(async () => expect(await handled()).toHaveLength(3));
    await open("batch");
    fireEvent.click(screen.getByRole("radio", { name: first }));
    await screen.findByText(words.batch.allBut([trayLabel(1)]));
    fireEvent.click(screen.getByRole("radio", { name: words.batch.reasons.recooked }));
    click(words.batch.submit);
    const changed = async () =>
      (await lead.store.ownFacts(stream)).flatMap((fact) => (fact.kind === "batch-changed" ? [fact.body] : []));
    await waitFor(async () => expect(await changed()).toMatchObject([{ pot: first, trays: [], kept: [1] }]));
  });

  test("trays of a wave that nobody has begun go with the next one, after one more touch", async () => {
    await lead.store.append(device, now, {
      stream,
      kind: "tray-handled",
      body: { tray: 1, turn: "served", sound: true, after: [], note: "" },
    });
    await open(null);
    const mine = trays.blind
      .filter(({ wave, spare, tray }) => wave === 1 && !spare && tray !== 1)
      .map(({ tray }) => tray);
    const ask = /11.trays not filled/;
    fireEvent.click(await screen.findByText(ask));
    fireEvent.click(screen.getByText(words.move.no));
    fireEvent.click(screen.getByText(ask));
    fireEvent.click(screen.getByText(words.move.yes(2)));
    const moved = async () =>
      (await lead.store.ownFacts(stream)).flatMap((fact) => (fact.kind === "person-noted" ? [fact.body] : []));
    await waitFor(async () => expect((await moved()).map(({ tray }) => tray)).toEqual(mine));
    expect((await moved()).every(({ what, wave }) => what === "here" && wave === 2)).toBe(true);
    await waitFor(() => expect(screen.queryByText(words.move.yes(2))).toBeNull());
    expect(screen.queryByText(/not filled/)).toBeNull();
  });

  test("a tray that is noted with a wave the plan lacks is not served, and says why", async () => {
    await lead.store.append(device, now, {
      stream,
      kind: "person-noted",
      body: { tray: 1, what: "late", wave: 9, after: [], note: "" },
    });
    await open("tray");
    expect(screen.getByText(words.tray.noWave(9))).toBeTruthy();
    await turn("Filled");
    await turn("Checked");
    await turn("Served", true);
    await waitFor(() => expect(stopped().join()).toContain(words.tray.noWave(9)));
    expect(await handled()).toEqual(["filled", "checked"]);
  });

  test("what cannot be read as a temperature is said, and nothing is kept", async () => {
    await open("reading");
    click(words.reading.submit);
    expect(screen.getByText(words.reading.missing.pot)).toBeTruthy();
    fireEvent.click(screen.getByRole("radio", { name: first }));
    fireEvent.input(screen.getByLabelText(words.reading.celsius), { target: { value: "hot" } });
    click(words.reading.submit);
    expect(screen.getByText(words.reading.missing.celsius)).toBeTruthy();
    expect(await lead.store.ownFacts(stream)).toHaveLength(1);
  });

  test("a check that found something wrong holds its tray back; taken back, the tray goes on", async () => {
    await read(pots, "75");
    await leave(pots);
    await open("tray");
    await turn("Filled");
    await turn("Checked");
    await waitFor(async () => expect(await handled()).toHaveLength(2));
    await waitFor(() => expect(screen.getByRole("button", { name: /^Served/ })).toBeTruthy());
    click(words.tray.notSound);
    await waitFor(async () => expect(await handled()).toHaveLength(3));
    await waitFor(() => expect(screen.queryByRole("button", { name: /^Served/ })).toBeNull());
    click(/take back : check found/);
    await turn("Served");
    await waitFor(async () => expect(await handled()).toHaveLength(4));
  });

  test("everything stops with a touch and one more; only a lead goes on", async () => {
    await read(pots, "75");
    await open(null);
    click(/^Stop everything/);
    click(words.halt.whys.person);
    await waitFor(() => expect(stopped().join()).toContain(words.halt.person));
    expect(screen.queryByRole("button", { name: words.halt.resume })).toBeNull();
    cleanup();
    asLead(lead, <Study route={{ page: "study", id: study }} />);
    fireEvent.click(await screen.findByRole("button", { name: words.halt.resume }));
    await waitFor(() => expect(screen.getByRole("button", { name: /^Stop everything/ })).toBeTruthy());
  });

  test("nothing of the lead's is on it: no rulings, no papers, no way to close or open", async () => {
    await open("tray");
    expect(screen.queryByText(words.tray.rulings)).toBeNull();
    await open(null);
    const links = screen.getAllByRole("link").map((link) => link.getAttribute("href"));
    expect(links.length).toBeGreaterThan(trays.blind.length);
    expect(links.filter((href) => !/\/(tray|reading|batch)\/\d+$/.test(href ?? ""))).toEqual([]);
    expect(document.body.textContent).not.toContain(dayWords.sealed);
    cleanup();
    asLead(kitchen(), <Bar route={{ page: "studies" }} />);
    const inBar = screen.getAllByRole("link").map(({ textContent }) => textContent);
    expect(inBar).toEqual([organizer.name, words.bar.studies]);
  });
});

test("pages of a wave and a tray have addresses that are read back", () => {
  for (const step of ["reading", "batch", "tray"] as const) {
    expect(readRoute(dayStepAddress(study, step, 12))).toEqual({ page: "day-step", id: study, step, of: 12 });
  }
  expect(readRoute(`${studyAddress(study)}/tray/x`)).toEqual({ page: "unknown" });
  expect(trayLabel(1)).toMatch(/^1-\d$/);
});

test("the time until a wave starts, where what was written is a time of the clock", () => {
  const at = (hours: number, minutes: number) => new Date(2026, 4, 3, hours, minutes).toISOString();
  expect(minutesToStart("11:15", at(11, 3))).toBe(12);
  expect(minutesToStart(" 2:30 pm", at(14, 34))).toBe(-4);
  expect(minutesToStart("12:05 am", at(0, 0))).toBe(5);
  for (const text of ["", "after lunch", "25:00", "11:75", "11"]) expect(minutesToStart(text, at(11, 0))).toBeNull();
  // half a day away is another day's
  expect(minutesToStart("23:30", at(11, 0))).toBeNull();
});

test("a new label has three letters, is free, and bytes that would favor some letters are left out", () => {
  // 19 letters; 256 = 13 * 19 + 9, so bytes from 247 on are the incomplete round
  const bytes = [255, 247, 0, 18, 19, 1, 1, 1, ...Array.from({ length: 16 }, () => 255)];
  expect(freeLabel(new Set(), () => Uint8Array.from(bytes))).toBe("CZC");
  const calls = [bytes, [2, 2, 2]];
  expect(freeLabel(new Set(["CZC"]), () => Uint8Array.from(calls.shift() ?? []))).toBe("FFF");
});
