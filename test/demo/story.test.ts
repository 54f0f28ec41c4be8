import { beforeAll, describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import type { By } from "../../src/demo/acts.ts";
import { demoPassphrase } from "../../src/demo/chance.ts";
import { panelists } from "../../src/demo/kitchen.ts";
import { writeClaim } from "../../src/demo/studies.ts";
import { openParts } from "../../src/design/readiness.ts";
import { brokenLinks, headsOf } from "../../src/log/chain.ts";
import { foldClaim } from "../../src/log/claim.ts";
import { readEvent } from "../../src/log/facts.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { dayOf } from "../../src/log/kitchen-day.ts";
import { recordOf } from "../../src/log/record.ts";
import type { Fact } from "../../src/model/event.ts";
import { newEventId, newId } from "../../src/model/id.ts";
import type { Departure } from "../../src/model/record.ts";
import type { ClaimStudy } from "../../src/organizer/claim-results.ts";
import { rowsOf, standingsOf } from "../../src/organizer/claim-rows.ts";
import { openKey } from "../../src/seal/open.ts";
import { device, type Told, told } from "./written.ts";

/** What the demo tells beside its numbers: sound logs, the incidents of the scenario, and nobody's name. */
let studies: Told[];
// sealing every key takes its time by design
beforeAll(async () => {
  studies = await told();
}, 60_000);
const titles = () => studies.map(({ title }) => title);
const at = (place: number): Told => {
  const study = studies[place];
  if (!study) throw new Error(`no study ${place}`);
  return study;
};

describe("every study", () => {
  test("nothing was missing when its plan was locked, and the plan says that it is invented", () => {
    expect(titles()).toHaveLength(12);
    for (const { state } of studies) {
      expect(state.lock && openParts(state.lock.body.plan)).toEqual([]);
      expect(state.lock?.body.plan.invented).toBe(true);
      expect(state.lock?.body.plan.title).toMatch(/^Demo: /);
    }
  });

  test("every device's log is gapless and chained, and the fold finds no rival and nothing off the plan", () => {
    for (const { facts, state } of studies) {
      expect(brokenLinks(facts)).toEqual([]);
      const heads = headsOf(facts);
      for (const [who, head] of Object.entries(heads)) {
        expect(facts.filter((fact) => fact.device === who)).toHaveLength(head);
      }
      expect([state.rivals, state.offPlan]).toEqual([[], []]);
    }
  });

  test("close and reveal saw all that was written before them", () => {
    for (const { facts, state } of studies.filter(({ revealed }) => revealed)) {
      const { [device.lead]: written = 0, ...tablets } = headsOf(facts);
      // masses were put beside one study's answers two days later
      const lead = written - (state.masses ? 1 : 0);
      expect(state.close?.body.heads).toEqual({ ...tablets, [device.lead]: lead - 2 });
      expect(state.reveal?.body.heads).toEqual({ ...tablets, [device.lead]: lead - 1 });
    }
  });

  test("its key opens with the passphrase that is shown", async () => {
    for (const { state, id } of studies) {
      if (!state.lock) throw new Error("not locked");
      const { key } = await openKey(state.lock.body.sealed, demoPassphrase());
      expect(key.study).toBe(id);
    }
  });

  test("no panelist is named in any log or remark", () => {
    const written = studies.flatMap(({ acts }) => acts.map(({ text, attachment }) => `${text} ${attachment?.text}`));
    const names = panelists.flatMap((name) => name.split(" "));
    // a name by itself, not as a part of another word
    expect(written.filter((text) => names.some((name) => new RegExp(`\\b${name}\\b`).test(text)))).toEqual([]);
  });

  test("a remark lies beside its event, which holds its salted hash alone", () => {
    const remarks = studies.flatMap(({ acts }) => acts.filter(({ attachment }) => attachment));
    expect(remarks.length).toBeGreaterThan(5);
    for (const { text, attachment } of remarks) expect(text).not.toContain(attachment?.text);
  });

  test("drawn anew it is the same: codes, orders, answers and times", async () => {
    const again = await told();
    const drawn = ({ state }: Told) => [
      state.lock?.body.packet.trays,
      state.reveal?.body.opened.key.trays,
      [...state.trays.values()].map(({ counted }) => [counted?.answers.get(1), counted?.answeredAt]),
    ];
    expect(again.map(drawn)).toEqual(studies.map(drawn));
  });
});

describe("the triangle's day", () => {
  const departures = (): Departure[] => recordOf(at(0).state, { keyMatches: true }).departures;

  test("tray 19 was answered on two tablets with different answers; the lead kept Tablet A's, and both are there", () => {
    const tray = at(0).state.trays.get(19);
    expect(tray?.ballots.map((ballot) => ballot.device).sort()).toEqual([device[0], device[2]].sort());
    expect(tray?.counted?.device).toBe(device[0]);
    expect(new Set(tray?.ballots.map(({ answers }) => answers.get(1)?.choice)).size).toBe(2);
    expect(departures()).toContainEqual(expect.objectContaining({ what: "contest-settled", tray: 19 }));
  });

  test("the third cup of tray 11 fell: its ballot is void and kept, spare 25 counts for that seat", () => {
    const { state } = at(0);
    expect(state.trays.get(11)).toMatchObject({ status: "voided", counted: null });
    expect(state.trays.get(11)?.ballots[0]?.answered).toBe(true);
    const judgments = recordOf(state, { keyMatches: true }).judgments;
    expect(judgments.find(({ tray }) => tray === 25)?.seat).toBe(11);
    expect(departures()).toContainEqual(
      expect.objectContaining({ what: "ballot-voided", tray: 11, reason: "sample-dropped" }),
    );
  });

  test("tray 5 stopped at the allergens, which the log knows as “not cleared” and no more; somebody else took spare 26", () => {
    const { state, facts } = at(0);
    // what the kitchen did to the tray says nothing of who it was for
    const about = facts.filter(({ body, kind }) => kind !== "tray-handled" && "tray" in body && body.tray === 5);
    expect(about.map(({ kind, body }) => [kind, body])).toEqual([["tray-stopped", { tray: 5, reason: "not-cleared" }]]);
    expect(state.trays.get(26)?.served?.body).toMatchObject({ instead: null, reason: "extra-person" });
  });

  test("tray 4 was late: wave 1's tray was answered after wave 2 had begun", () => {
    const minutes = (tray: number) => at(0).state.trays.get(tray)?.counted?.answeredAt?.slice(11, 16) ?? "";
    // local 11:30 is 09:30 UTC on the demo's day
    expect(minutes(1) < "09:30").toBe(true);
    expect(minutes(4) > "09:40").toBe(true);
    expect(minutes(4) < "09:50").toBe(true);
  });

  test("the clock of Tablet B is seven minutes slow: it answered before its wave began", () => {
    const { state } = at(0);
    const first = state.trays.get(2);
    expect(first?.counted?.device).toBe(device[1]);
    expect((first?.counted?.openedAt ?? "").slice(11, 16) < "09:15").toBe(true);
    expect((state.trays.get(1)?.counted?.openedAt ?? "").slice(11, 16) >= "09:15").toBe(true);
  });

  test("whoever ticked “guess”, with tray 8, was right", () => {
    const { state } = at(0);
    const record = recordOf(state, { keyMatches: true });
    expect(record.judgments.filter(({ guess }) => guess).map(({ tray }) => tray)).toEqual([8]);
  });

  test("what has no place of its own in the log stands in the note of the close", () => {
    expect(at(0).state.close?.body.note).toBe("The clock of Tablet B was 7 minutes slow.");
  });

  test("batch 3 of the new process read 71 °C, was held back, went into the oven again and read 76 °C", () => {
    const { state } = at(0);
    const third = (now: Fact[]) => dayOf(foldStudy(now), 0)?.waves.find(({ wave }) => wave === 3);
    const all = [...state.facts.values()];
    const passed = all.find(({ kind, body }) => kind === "core-read" && "after" in body && body.after.length > 0);
    const until = all.filter(({ at, kind }) => kind === "study-locked" || at < (passed?.at ?? ""));
    // the other batch has passed and stays in the oven until this one has
    expect(new Set(third(until)?.blocked.map(({ why }) => why))).toEqual(new Set(["below", "out-unknown"]));
    expect(third(all)?.blocked).toEqual([]);
    expect(departures()).toContainEqual(
      expect.objectContaining({ what: "core-below", batch: "new 3", celsius: ["71", "76"], limit: 74, ended: "met" }),
    );
  });

  test("tray 4 was served with wave 2 and from its batches; nothing was served while held back or out of its window", () => {
    const { departures: list, otherBatches } = recordOf(at(0).state, { keyMatches: true });
    expect(list).toContainEqual({ what: "person-noted", tray: 4, state: "late", wave: 2, note: "" });
    expect(new Set(otherBatches.map(({ tray, batch }) => `${tray} ${batch}`))).toEqual(
      new Set(["4 current 2", "4 new 2"]),
    );
    const whats = new Set(list.map(({ what }) => what));
    for (const none of ["served-blocked", "served-outside-window", "sheet-not-returned"] as const) {
      expect(whats.has(none)).toBe(false);
    }
  });
});

test("the last study is locked and waits: 60 trays, six spares, likeness within 0.3, nothing answered", () => {
  const { state, facts, revealed } = at(11);
  expect(revealed).toBe(false);
  expect(facts.map(({ kind }) => kind)).toEqual(["draft-saved", "study-locked"]);
  const plan = state.lock?.body.plan;
  expect([plan?.goal, plan?.similarity.limit, plan?.people, plan?.spares]).toEqual(["similarity", 0.3, 60, 6]);
  expect([...state.trays.values()].every(({ status }) => status === "waiting")).toBe(true);
});

describe("the claim", () => {
  test("it was written before the first lock, fits its studies, and every study it names is one of the demo", () => {
    const by = (who: By) => device[who];
    const writing = { device: by, offsetMinutes: -120, newStudyId: newId, newEventId, claim: newId(), app: "test" };
    const facts = writeClaim(studies, writing).acts.map(({ text }) => {
      const read = readEvent(text);
      if (!read.ok || !read.fact) throw new Error("not a fact");
      return read.fact;
    });
    expect(brokenLinks(facts)).toEqual([]);
    const { current, versions } = foldClaim(facts);
    const claim = current?.claim;
    if (!claim) throw new Error("no claim");
    expect(claim.invented).toBe(true);
    expect([...versions.values()][0]?.at.localeCompare(at(0).state.lock?.at ?? "")).toBe(-1);
    const now = { over: current.over, claim, known: current.known };
    const byId = new Map(studies.map(({ id, state }) => [id, asClaimStudy(id, state)]));
    const rows = rowsOf({ claim, versions, now, studies: byId });
    // as printed: 18 of 24 juicier, 11.9 points more, 31 of 50 prefer it with p = 0.119, 6.5 points less lost
    expect(rows.map(({ finding, waits }) => finding?.found ?? waits)).toEqual([
      "lower",
      "higher",
      "higher",
      "not-shown",
      "nothing",
    ]);
    expect(rows.flatMap(({ cells }) => cells.filter(({ after }) => after))).toEqual([]);
    expect(standingsOf(claim, rows).map(({ judgment }) => judgment)).toEqual([
      "allowed",
      "contradicted",
      "contradicted",
      "allowed",
    ]);
  });

  function asClaimStudy(id: string, state: Told["state"]): ClaimStudy {
    const plan = state.lock?.body.plan;
    if (!plan) throw new Error("not locked");
    const result = state.reveal ? analyse(recordOf(state, { keyMatches: true }), "test") : null;
    return { id, plan, revealed: result !== null, result, waits: result ? null : "sealed" };
  }
});
