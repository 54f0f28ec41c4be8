import { beforeEach, describe, expect, test } from "vitest";
import { headsOf } from "../../src/log/chain.ts";
import { outlineOf, readOutline } from "../../src/log/facts.ts";
import { foldStudy } from "../../src/log/fold.ts";
import type { Fact } from "../../src/model/event.ts";
import type { DeviceInfo } from "../../src/model/http.ts";
import {
  closeBody,
  contestedTrays,
  dayRows,
  freeSpares,
  holdings,
  lateBallots,
  mayHold,
  progressOf,
  settleBody,
  voidable,
  voidBody,
} from "../../src/organizer/day.ts";
import { lead, study, tabletA, tabletB, Writer } from "../log/example.ts";
import { LineWriter } from "../log/line-example.ts";

let log: Writer;
let facts: Fact[];
beforeEach(() => {
  log = new Writer();
  facts = [log.lock()];
});

/** What the server gives out before the reveal: ballot events without what they say. */
const blindly = (all: Fact[]): Fact[] =>
  all.map((fact) => (fact.device === lead ? fact : (readOutline(outlineOf(fact), fact.hash) ?? fact)));

const statuses = () => dayRows(foldStudy(blindly(facts))).flatMap(({ rows }) => rows.map((row) => row.status));

describe("the tasting day", () => {
  test("it says where each tray stands, and its rows hold no code and no answer", () => {
    facts.push(...log.ballot(tabletA, 1, "482"), ...log.ballot(tabletA, 2, "264").slice(0, 1));
    expect(statuses()).toEqual(["answered", "open", "waiting", "spare"]);
    expect(progressOf(foldStudy(facts))).toEqual({ answered: 1, planned: 3, spares: 0 });
    // even from full texts the rows hold nothing of what was said
    const rows = JSON.stringify(dayRows(foldStudy(facts)));
    for (const code of ["482", "715", "309", "264"]) expect(rows.includes(code)).toBe(false);
  });

  test("a void names every event of the ballot, and the ballot counts no more", () => {
    facts.push(...log.ballot(tabletA, 1, "482"));
    const [ballot] = voidable(foldStudy(blindly(facts)));
    if (!ballot) throw new Error("there is a ballot to void");
    const body = voidBody(ballot, "sample-dropped", "third cup");
    const written = facts.filter((fact) => fact.device === tabletA).map((fact) => fact.id);
    expect([...body.targets].sort()).toEqual(written.sort());
    facts.push(log.write(lead, "ballot-voided", body));
    expect(statuses()[0]).toBe("voided");
    expect(voidable(foldStudy(facts))).toEqual([]);
  });

  test("a void of one of two ballots leaves the other one standing", () => {
    facts.push(...log.ballot(tabletA, 1, "482"), ...log.ballot(tabletB, 1, "715"));
    const ballot = voidable(foldStudy(blindly(facts))).find(({ device }) => device === tabletB);
    if (!ballot) throw new Error("there is a ballot to void");
    facts.push(log.write(lead, "ballot-voided", voidBody(ballot, "wrong-tray", "")));
    expect(statuses()[0]).toBe("answered");
    expect(foldStudy(facts).trays.get(1)?.counted?.device).toBe(tabletA);
  });

  test("a tray answered on two tablets is settled among all that answered it", () => {
    facts.push(...log.ballot(tabletA, 1, "482"), ...log.ballot(tabletB, 1, "715"));
    const [tray] = contestedTrays(foldStudy(blindly(facts)));
    if (!tray) throw new Error("there is a contested tray");
    const body = settleBody(tray, tabletB, "paper trail");
    expect(body).toEqual({ tray: 1, keep: tabletB, among: [tabletA, tabletB], note: "paper trail" });
    facts.push(log.write(lead, "contest-settled", body));
    expect(contestedTrays(foldStudy(facts))).toEqual([]);
    expect(foldStudy(facts).trays.get(1)?.counted?.device).toBe(tabletB);
  });

  test("a tray answered on a tablet and on paper: the paper is named by its first typing, and settled like a tablet", () => {
    const typed = (typing: 1 | 2, against: string | null) =>
      log.write(tabletA, "paper-typed", {
        ...{ tray: 1, typing, against, agrees: against === null ? null : true, clearance: "5a".repeat(32) },
        ...{ consent: null, stopped: null, lineMm: null, marks: [], salt: "5a".repeat(32) },
        choices: [{ question: 1, choice: "482", guess: false }],
      });
    const first = typed(1, null);
    expect(dayRows(foldStudy(blindly([...facts, first])))[0]?.rows[0]).toMatchObject({
      ...{ status: "unchecked", ballots: [{ device: tabletA, paper: "once" }] },
    });
    facts.push(...log.ballot(tabletA, 1, "715"), first, typed(2, first.id));
    const [tray] = contestedTrays(foldStudy(blindly(facts)));
    if (!tray) throw new Error("there is a contested tray");
    const body = settleBody(tray, first.id, "the tablet fell");
    expect(body.among).toEqual([tabletA, first.id]);
    facts.push(log.write(lead, "contest-settled", body));
    expect(foldStudy(facts).trays.get(1)?.counted?.answers.get(1)?.choice).toBe("482");
  });

  test("a spare that was served or touched is not offered again", () => {
    expect(freeSpares(foldStudy(facts)).map(({ tray }) => tray)).toEqual([4]);
    facts.push(log.write(lead, "spare-served", { tray: 4, instead: 1, reason: "replaces", note: "" }));
    expect(freeSpares(foldStudy(facts))).toEqual([]);
    expect(dayRows(foldStudy(facts))[0]?.rows[3]).toMatchObject({ tray: 4, status: "waiting", instead: 1 });
  });
});

describe("the close", () => {
  test("it names the last event of every device it knows of, the lead's own too", () => {
    facts.push(...log.ballot(tabletA, 1, "482"), ...log.ballot(tabletB, 2, "264"));
    facts.push(log.write(lead, "paper-printed", { paper: "labels", reprint: false }));
    expect(closeBody(headsOf(blindly(facts)), [], "").heads).toEqual({ [lead]: 2, [tabletA]: 3, [tabletB]: 3 });
  });

  test("a ballot that comes in afterwards is late, until it is admitted", () => {
    facts.push(...log.ballot(tabletA, 1, "482"));
    facts.push(log.write(lead, "study-closed", closeBody(headsOf(facts), [], "")));
    facts.push(...log.ballot(tabletB, 2, "264"));
    expect(statuses()).toEqual(["answered", "late", "waiting", "spare"]);
    const [late] = lateBallots(foldStudy(blindly(facts)));
    expect(late).toMatchObject({ tray: 2, device: tabletB });
    facts.push(log.write(lead, "late-admitted", { tray: 2, device: tabletB, note: "was out of reach" }));
    expect(lateBallots(foldStudy(facts))).toEqual([]);
    expect(statuses()[1]).toBe("answered");
  });

  test("it warns of the tablets of this study that hold something, by name and number", () => {
    const tablet = (name: string, unsent: number, more: Partial<DeviceInfo> = {}): DeviceInfo => ({
      id: tabletA,
      name,
      role: "panel",
      study,
      enrolledAt: "2026-05-03T08:00:00.000Z",
      lastSeen: "2026-05-03T14:02:00.000Z",
      revoked: false,
      unreadable: 0,
      status: { unsent, battery: null, persisted: null, app: "0.1.0" },
      heads: {},
      ...more,
    });
    const holding = holdings(
      [
        tablet("Booth 1", 0),
        tablet("Booth 2", 3),
        tablet("Booth 3", 2, { revoked: true }),
        tablet("Elsewhere", 9, { study: lead }),
        tablet("Kitchen phone", 5, { role: "lead", study: null }),
        tablet("Never heard", 0, { status: null, lastSeen: null }),
      ],
      study,
    );
    expect(holding.map(({ name, unsent }) => `${name} ${unsent}`)).toEqual(["Booth 2 3", "Booth 3 2"]);
    const quiet = mayHold(
      [
        tablet("Booth 1", 0),
        tablet("Never heard", 0, { id: tabletB, status: null, lastSeen: null }),
        tablet("Booth 2", 3),
      ],
      study,
      foldStudy(facts),
      "2026-05-03T14:02:30.000Z",
    );
    expect(quiet).toEqual([{ name: "Never heard", lastSeen: null, trays: [] }]);
    const begun = foldStudy([...facts, log.write(tabletA, "tray-opened", { tray: 3, clearance: "0".repeat(64) })]);
    expect(mayHold([tablet("Booth 1", 0)], study, begun, "2026-05-03T14:02:30.000Z")).toMatchObject([{ trays: [3] }]);
    expect(mayHold([tablet("Booth 1", 0)], study, foldStudy(facts), "2026-05-03T14:04:00.000Z")).toHaveLength(1);
    expect(closeBody(headsOf(facts), holding, "two tablets were left in the van")).toMatchObject({
      knownUnsent: 5,
      note: "two tablets were left in the van",
    });
  });
});

describe("the day of a line scale", () => {
  const rows = (all: Fact[]) => dayRows(foldStudy(blindly(all))).flatMap((wave) => wave.rows);

  test("a tray is open while some marks are there, and says how many of how many", () => {
    const line = new LineWriter();
    const all = [line.lockLine(), line.mark(tabletA, 1, 1, 0.25), line.mark(tabletA, 1, 2, null)];
    expect(rows(all)[0]).toMatchObject({ status: "open", kept: { questions: 2, of: 4 } });
    // a mark that is moved is no further question
    all.push(line.mark(tabletA, 1, 2, 0.75));
    expect(rows(all)[0]?.kept).toEqual({ questions: 2, of: 4 });
    expect(progressOf(foldStudy(blindly(all)))).toEqual({ answered: 0, planned: 2, spares: 0 });
    all.push(line.mark(tabletA, 1, 3, 0.5), line.mark(tabletA, 1, 4, 0.5));
    expect(rows(all)[0]).toMatchObject({ status: "answered", kept: null });
    expect(progressOf(foldStudy(blindly(all)))).toEqual({ answered: 1, planned: 2, spares: 0 });
  });

  test("its rows hold no mark, even from full texts, and a tablet with half a tray may hold more", () => {
    const line = new LineWriter();
    const state = foldStudy([line.lockLine(), line.mark(tabletA, 1, 1, 0.4321)]);
    expect(JSON.stringify(dayRows(state))).not.toContain("4321");
    const booth: DeviceInfo = {
      ...{ id: tabletA, name: "Booth 1", role: "panel", study, revoked: false, unreadable: 0, heads: {} },
      enrolledAt: "2026-05-03T08:00:00.000Z",
      lastSeen: "2026-05-03T14:02:00.000Z",
      status: { unsent: 0, battery: null, persisted: null, app: "0.1.0" },
    };
    expect(mayHold([booth], study, state, "2026-05-03T14:02:30.000Z")).toMatchObject([{ trays: [1] }]);
  });
});
