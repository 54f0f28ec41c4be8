import { describe, expect, test } from "vitest";
import { headsOf } from "../../src/log/chain.ts";
import { readEvent } from "../../src/log/facts.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { recordOf } from "../../src/log/record.ts";
import type { ScaleForm } from "../../src/model/attribute.ts";
import { canonicalText } from "../../src/model/canonical.ts";
import type { Body } from "../../src/model/event.ts";
import { lead, tabletA } from "./example.ts";
import { LineWriter, later } from "./line-example.ts";

const five: ScaleForm = { kind: "steps", labels: ["not juicy at all", "", "juicy", "", "very juicy"], liking: false };

/** What the log makes of one answer to the question after ten seconds. */
function judged(form: ScaleForm, fraction: number | null, changes: Partial<Body<"mark-kept">> = { line: null }) {
  const log = new LineWriter();
  const facts = [log.lockLine(form), log.mark(tabletA, 1, 1, 0.3), log.mark(tabletA, 1, 2, fraction, changes)];
  const close = log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" });
  const record = recordOf(foldStudy([...facts, close, log.revealLine(headsOf([...facts, close]))]), {
    keyMatches: true,
  });
  return {
    marks: record.marks.filter(({ attribute }) => attribute === later),
    offPlan: record.departures.filter(({ what }) => what === "off-plan"),
  };
}

describe("answers on steps", () => {
  test.each([0, 0.25, 0.5, 0.75, 1])("the step at %s of five counts, and has no length", (fraction) => {
    const { marks, offPlan } = judged(five, fraction);
    expect(marks).toMatchObject([{ fraction, lengthMm: null, lengthPx: null }]);
    expect(offPlan).toEqual([]);
  });

  test.each([
    ["between two steps", five, 0.3, { line: null }],
    [
      "a step of five on a scale of three",
      { kind: "just-right", labels: ["low", "just right", "high"] },
      0.25,
      { line: null },
    ],
    ["steps that were shown as a line", five, 0.5, {}],
    ["a line that says no length", { kind: "line" }, 0.5, { line: null }],
  ] as const)("what the ballot cannot give counts for nothing and is listed: %s", (_what, form, fraction, changes) => {
    const { marks, offPlan } = judged(form as ScaleForm, fraction, changes);
    expect(marks).toEqual([]);
    expect(offPlan).toEqual([{ what: "off-plan", tray: 1 }]);
  });

  test("steps that somebody could not judge are no step", () => {
    expect(judged(five, null).marks).toMatchObject([{ fraction: null, why: "not-perceived", lengthMm: null }]);
  });

  test("a locked plan from before there were steps reads as one of lines", () => {
    const lock = new LineWriter().lockLine();
    if (lock.kind !== "study-locked" || lock.outline) throw new Error("no lock");
    const { hash: _hash, outline: _outline, ...event } = lock;
    // as a version without the field wrote it
    const text = canonicalText(JSON.parse(JSON.stringify(event), (key, value) => (key === "form" ? undefined : value)));
    expect(text).not.toContain('"form"');
    const read = readEvent(text);
    const fact = read.ok ? read.fact : null;
    if (fact?.kind !== "study-locked" || fact.outline) throw new Error("not read");
    expect(fact.body.packet.line?.attributes.map(({ form }) => form.kind)).toEqual(["line", "line"]);
    expect(fact.body.plan.scale.attributes.map(({ form }) => form.kind)).toEqual(["line", "line"]);
  });
});
