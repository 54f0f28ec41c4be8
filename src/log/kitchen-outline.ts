import type { Envelope } from "../model/ballot-event.ts";
import { type Body, type Fact, type Kind, kitchenStream } from "../model/event.ts";
import { isKitchenKind } from "../model/kitchen-event.ts";
import type { Plan } from "../model/plan.ts";
import { nothingAsked } from "../model/plan-question.ts";
import { outlineOf } from "./facts.ts";

/** What a device of the kitchen gets of an event before the reveal: its text, an outline, or that there is one. */
export type KitchenView = { form: "text" } | { form: "outline"; outline: Envelope } | { form: "nothing" };

/** What leads do that changes which trays are served, and which papers have to come back. It names trays and devices, never answers. */
const rulings: readonly Kind[] = ["ballot-voided", "spare-served", "contest-settled", "paper-printed", "study-closed"];
const ballots: readonly Kind[] = [
  "tray-opened",
  "answer-kept",
  "mark-kept",
  "portion-chewed",
  "paper-typed",
  "tray-finished",
  "tray-stopped",
];

/**
 * What of a study concerns whoever cooks, checks and weighs: what the lock fixed, without the sealed key; what was written
 * down on the day; and of ballots that they happened. A kind that is not named here stays away.
 */
export function kitchenView(fact: Fact): KitchenView {
  if (fact.stream.kind === kitchenStream.kind) return { form: "nothing" };
  if (isKitchenKind(fact.kind) || rulings.includes(fact.kind)) return { form: "text" };
  if (fact.kind === "study-locked") {
    const { hash: _hash, outline: _outline, ...envelope } = fact;
    return { form: "outline", outline: { ...envelope, body: withoutKey(fact.body) } };
  }
  return ballots.includes(fact.kind) ? { form: "outline", outline: outlineOf(fact) } : { form: "nothing" };
}

/** A lock without its sealed key: the commitment stays, as on every tablet; and without what is expected to come out. */
function withoutKey(body: Body<"study-locked">): Body<"study-locked"> {
  const { sealed } = body;
  const kdf = { rounds: sealed.kdf.rounds, salt: "00" };
  return { ...body, plan: withoutExpectations(body.plan), sealed: { ...sealed, kdf, iv: "00", ciphertext: "" } };
}

const withoutExpectations = (plan: Plan): Plan => ({
  ...plan,
  ...{ objective: "", ifYes: "", ifNo: "", asked: nothingAsked(), advised: null },
  properties: plan.properties.map((property) => ({ ...property, expected: null })),
  ranking: { ...plan.ranking, predicted: [] },
});
