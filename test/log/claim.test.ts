import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AtHand, type ClaimState, foldClaim, stoodBefore, takenOff } from "../../src/log/claim.ts";
import { writeEvent } from "../../src/log/facts.ts";
import { type Claim, claim as claimSchema } from "../../src/model/claim.ts";
import type { Fact } from "../../src/model/event.ts";
import { misfit } from "../../src/model/schema.ts";
import { ledgerOf } from "../analysis/ledger-example.ts";
import {
  attachmentOf,
  claimOf,
  juiciness,
  measureOf,
  otherStudy,
  own,
  predicting,
  rival,
  study,
} from "./claim-example.ts";

const laptop = "aaaaaaaa-aaaa-4aaa-8aaa-aaaaaaaaaaaa";
const phone = "bbbbbbbb-bbbb-4bbb-8bbb-bbbbbbbbbbbb";
const event = (at: number): string => `0196e000-0000-7000-8000-00000000000${at}`;

/** A version written over others; `known`: the studies whose key was open where it was written. */
function saved(at: number, over: number[], claim: Claim, known: string[] = [], device = laptop): Fact {
  const [base, ...merged] = over.map(event);
  return writeEvent({
    id: event(at),
    stream: { kind: "claim", id: own },
    device,
    seq: at,
    prev: null,
    at: `2026-05-03T10:0${at}:00.000Z`,
    kind: "claim-saved",
    body: { base: base ?? null, merged, claim, known },
  }).fact;
}
const titled = (title: string): Claim => claimOf({ title });

describe("versions", () => {
  const begun = saved(1, [], titled("one"));
  const onLaptop = saved(2, [1], titled("two"));
  const onPhone = saved(3, [1], titled("three"), [], phone);
  const settled = saved(4, [3, 2], titled("four"));

  test("nothing written: no version", () => {
    expect(foldClaim([])).toEqual({ current: null, others: [], versions: new Map() });
  });

  test("two browsers that did not know of each other: the later counts, the other is given; then one settles it", () => {
    const apart = foldClaim([begun, onLaptop, onPhone]);
    expect([apart.current?.claim.title, apart.others.map(({ claim }) => claim.title)]).toEqual(["three", ["two"]]);
    const after = foldClaim([begun, onLaptop, onPhone, settled]);
    expect([after.current?.claim.title, after.others]).toEqual(["four", []]);
  });

  test("in every order and twice over they fold to the same state", () => {
    const facts = [begun, onLaptop, onPhone, settled];
    const expected = foldClaim(facts);
    fc.assert(
      fc.property(fc.shuffledSubarray([...facts, ...facts], { minLength: 8 }), (some) => {
        expect(foldClaim(some)).toEqual(expected);
      }),
    );
  });
});

describe("what stood before a result was known", () => {
  const higher = { [own]: "higher", [rival]: "none" } as const;
  const turned = { [own]: "higher", [rival]: "higher" } as const;
  const of = { measure: juiciness, study };
  const atHand = (state: ClaimState, known: string[] = [], claim?: Claim): AtHand => ({
    over: state.current ? [state.current.event] : [],
    claim: claim ?? state.current?.claim ?? claimOf(),
    known,
  });
  const stood = (facts: Fact[], known: string[] = [], claim?: Claim) => {
    const state = foldClaim(facts);
    return stoodBefore(state.versions, atHand(state, known, claim), of);
  };

  test("nobody knows the result: nothing to hold the predictions against", () => {
    expect(stood([saved(1, [], predicting(higher)), saved(2, [1], predicting(turned))])).toBeNull();
  });

  test("the last version before counts, not the first, and not one that was written after", () => {
    const facts = [
      saved(1, [], predicting({ [own]: "lower" })),
      saved(2, [1], predicting(higher)),
      saved(3, [2], predicting(turned), [study]),
      saved(4, [3], predicting({ [own]: "silent" }), [study]),
    ];
    expect(stood(facts)).toEqual([higher]);
    expect(stood(facts.slice(0, 2), [study])).toEqual([higher]);
  });

  test("whoever writes over a version that knew knows as well, even where the key is not open", () => {
    const facts = [
      saved(1, [], predicting(higher)),
      saved(2, [1], predicting(turned), [study]),
      saved(3, [2], predicting(turned), [], phone),
    ];
    expect(stood(facts)).toEqual([higher]);
  });

  test("two browsers before the result: what either said stood", () => {
    const facts = [
      saved(1, [], predicting({ [own]: "lower" })),
      saved(2, [1], predicting(higher)),
      saved(3, [1], predicting(turned), [], phone),
      saved(4, [3, 2], predicting(turned), [study]),
    ];
    expect(stood(facts)).toEqual([higher, turned]);
  });

  test("a study that was attached when its result was known has nothing that stood before", () => {
    const without = claimOf({ measures: [measureOf({ attached: [] })] });
    expect(stood([saved(1, [], without), saved(2, [1], predicting(higher), [study])])).toEqual([]);
  });

  test("taken off and attached again before the result: the later prediction is the one that stood", () => {
    const without = claimOf({ measures: [measureOf({ attached: [] })] });
    const facts = [saved(1, [], predicting(turned)), saved(2, [1], without), saved(3, [2], predicting(higher))];
    expect(stood(facts, [study])).toEqual([higher]);
  });

  test("a typed result is known from the version on that holds it", () => {
    const typed = { difference: -6.5, low: -7.7, high: -5.2, unit: "points", matters: 4, source: "ledger" };
    const facts = [
      saved(1, [], predicting(higher, { kind: "mass" })),
      saved(2, [1], predicting(turned, { kind: "mass", typed })),
    ];
    const { versions } = foldClaim(facts);
    const now = (claim: Claim, over: number): AtHand => ({ over: [event(over)], claim, known: [] });
    const typedOf = { measure: juiciness, study: null };
    expect(stoodBefore(versions, now(predicting(turned), 1), typedOf)).toBeNull();
    expect(stoodBefore(versions, now(predicting(turned, { typed }), 2), typedOf)).toEqual([higher]);
  });

  test("weighings are known from the second one of a batch on: one mass alone is no loss", () => {
    const ledger = (...rows: string[][]) => ({ kind: "mass" as const, weighed: ledgerOf([rows, []]) });
    const raw = ledger(["1497.0", ""], ["1497.6", ""]);
    const cooked = ledger(["1497.0", "1180.3"], ["1497.6", ""]);
    const facts = [
      saved(1, [], predicting(higher, raw)),
      saved(2, [1], predicting(higher, cooked)),
      saved(3, [2], predicting(turned, cooked)),
    ];
    const { versions } = foldClaim(facts);
    const now = (claim: Claim, over: number): AtHand => ({ over: [event(over)], claim, known: [] });
    const own = { measure: juiciness, study: null };
    expect(stoodBefore(versions, now(predicting(turned, raw), 1), own)).toBeNull();
    expect(stoodBefore(versions, now(predicting(turned, cooked), 3), own)).toEqual([higher]);
  });

  test("the same in every order of arrival", () => {
    const facts = [
      saved(1, [], predicting(higher)),
      saved(2, [1], predicting(turned), [study]),
      saved(3, [1], predicting({ [own]: "lower" }), [], phone),
      saved(4, [3, 2], predicting(turned)),
    ];
    const expected = stood(facts);
    expect(expected).toEqual([{ [own]: "lower" }]);
    fc.assert(
      fc.property(fc.shuffledSubarray(facts, { minLength: 4 }), (some) => {
        expect(stood(some)).toEqual(expected);
      }),
    );
  });

  test("a study that was taken off once its result was known is named; one without a result is not", () => {
    const both = claimOf({
      measures: [measureOf({ attached: [attachmentOf(), attachmentOf({ id: otherStudy, study: otherStudy })] })],
    });
    const neither = claimOf({ measures: [measureOf({ attached: [] })] });
    const state = foldClaim([saved(1, [], both), saved(2, [1], neither, [study])]);
    expect(takenOff(state.versions, atHand(state))).toEqual([{ study, name: "Juiciness" }]);
    expect(takenOff(state.versions, atHand(state, [], both))).toEqual([]);
  });
});

describe("the document", () => {
  const fits = (claim: unknown): string | undefined => misfit(claimSchema, claim)?.where;
  const [one, two] = claimOf().explanations;

  test.each([
    ["as it is", claimOf(), undefined],
    ["one explanation", claimOf({ explanations: one ? [one] : [] }), "explanations"],
    ["seven explanations", claimOf({ explanations: Array.from({ length: 7 }, () => two) as never }), "explanations"],
    ["a day that is none", claimOf({ expectedOn: "3 May" }), "expectedOn"],
    ["no day", claimOf({ expectedOn: "" }), undefined],
    ["a prediction nobody knows", predicting({ [own]: "much" as never }), `measures.0.predictions.${own}`],
  ])("%s", (_what, document, where) => {
    expect(fits(document)).toBe(where);
  });
});
