import type { Paper } from "../../model/event.ts";
import type { Departure } from "../../model/record.ts";
import type { Caveat } from "../../model/result.ts";
import { percent, wholeNumber } from "../number.ts";

type CaveatSentences = { [W in Caveat["what"]]: (caveat: Extract<Caveat, { what: W }>) => string };
type DepartureSentences = { [W in Departure["what"]]: (departure: Extract<Departure, { what: W }>) => string };

const answers = (count: number): string => (count === 1 ? "1 answer" : `${wholeNumber(count)} answers`);
const people = (count: number): string => (count === 1 ? "1 person" : `${wholeNumber(count)} people`);
const noted = (note: string): string => (note.trim() === "" ? "" : ` Note: “${note.trim()}”`);

/** What the result does not show, one sentence for each caveat. */
export const caveats: CaveatSentences = {
  "key-mismatch": () =>
    "The opened key does not match the seal made at lock. Everything on this page is in doubt until that is explained.",
  "nature-unknown": () => "The result says that this panel could tell, not by what, and not which product is better.",
  "likeness-not-shown": () =>
    "The study set out to find a difference. When it finds none, that is no evidence that the products are alike.",
  "this-panel-only": (c) =>
    c.standsFor.trim() === ""
      ? "The result speaks of the people who tasted, on that day."
      : `The result speaks of this panel, which stands for: ${c.standsFor.trim().replace(/\.$/, "")}. Whether it does is a judgment, not a measurement.`,
  "guessing-model": () =>
    "“Can tell” rests on a model: a person either tells for certain or guesses blindly, with nothing in between.",
  "repeats-pooled": (c) =>
    `${answers(c.judgments)} came from ${people(c.people)}. The test allows for that; the bounds on size take every answer for another person's and are narrower than they should be.`,
  "few-batches": (c) => {
    if (c.batches === 0) return `No batch of “${c.product}” is on record.`;
    return c.batches === 1
      ? `All portions of “${c.product}” came from one batch, so the result says nothing about other cooks of it.`
      : `The portions of “${c.product}” came from ${c.batches} batches, so the result says little about other days.`;
  },
  "looks-differ": () =>
    "The samples could be told apart by looks, by the lead's own account; the picks may rest on looks alone.",
  "server-knew": () => "Whoever carried the trays knew which sample was which and may have given it away unawares.",
  "below-plan": (c) =>
    `${answers(c.answered)} counted, ${wholeNumber(c.planned)} planned. The number needed is that for the answers counted.`,
  "orders-uneven": (c) =>
    `Serving orders came up unevenly, from ${wholeNumber(c.fewest)} to ${answers(c.most)} each, so a liking for one place on the tray is balanced less well.`,
  "plan-could-not-find": (c) =>
    `If ${percent(c.discriminatorShare)} of people can tell, a panel as planned shows it ${percent(c.power)} of the time: a miss was more likely than a find.`,
};

const voidReasons: Record<Extract<Departure, { what: "ballot-voided" }>["reason"], string> = {
  "wrong-tray": "wrong tray",
  "sample-dropped": "a sample was dropped",
  talked: "people talked",
  "outside-window": "tasted outside the time window",
  spoiled: "the ballot was spoiled",
  other: "for another reason",
};
const stopReasons: Record<Extract<Departure, { what: "stopped" }>["reason"], string> = {
  stopped: "the panelist stopped",
  "cannot-answer": "the panelist could not answer",
  "not-cleared": "the panelist was not cleared to taste",
};

const paperNames: Record<string, string> = {
  "kitchen-by-product": "kitchen sheet by product, which holds the key",
  "kitchen-by-tray": "kitchen sheet by tray, which holds the key",
  "tray-cards": "tray cards",
  labels: "labels",
  seating: "seating list",
  "sealed-page": "sealed page, which holds the key",
} satisfies Record<Paper, string>;
const spareReasons: Record<Extract<Departure, { what: "spare-served" }>["reason"], string> = {
  replaces: "to replace a tray",
  "extra-person": "to an extra person",
  other: "for another reason",
};
const spare = (d: Extract<Departure, { what: "spare-served" }>): string =>
  d.instead === null ? spareReasons[d.reason] : `instead of tray ${d.instead}`;

/** What did not go by the plan, one sentence for each departure. */
export const departures: DepartureSentences = {
  "ballot-voided": (d) => `Tray ${d.tray}: the ballot was voided (${voidReasons[d.reason]}).${noted(d.note)}`,
  "spare-served": (d) => `Tray ${d.tray}: a spare, served ${spare(d)}.${noted(d.note)}`,
  "spare-unexplained": (d) => `Tray ${d.tray}: a spare was answered, and nobody recorded why. It was not counted.`,
  "contest-settled": (d) =>
    `Tray ${d.tray}: it was answered on two tablets; the lead settled which one counts.${noted(d.note)}`,
  "contest-open": (d) => `Tray ${d.tray}: it was answered on two tablets, and that was never settled. Neither counts.`,
  "late-excluded": (d) => `Tray ${d.tray}: an answer came in after the close and was left out.`,
  "late-admitted": (d) => `Tray ${d.tray}: an answer came in after the close, and the lead let it in.${noted(d.note)}`,
  "after-reveal": (d) => `Tray ${d.tray}: an answer came in after the reveal and was left out.`,
  "off-plan": (d) => `Tray ${d.tray}: an answer names a tray or a code that the plan does not hold. It was left out.`,
  unfinished: (d) => `Tray ${d.tray}: the answer was kept, but the tray was never finished. The answer counts.`,
  stopped: (d) => `Tray ${d.tray}: ${stopReasons[d.reason]}.`,
  "key-reprinted": (d) => `Printed again after lock: ${paperNames[d.paper] ?? d.paper}.`,
  "closed-with-unsent": (d) =>
    `The study was closed while ${d.unsent === 1 ? "1 record was" : `${wholeNumber(d.unsent)} records were`} known to be unsent.`,
  "rival-event": (d) => `A second record of a kind that can stand only once was set aside: ${d.kind}.`,
  quarantined: (d) =>
    `The server set ${d.events === 1 ? "1 record" : `${wholeNumber(d.events)} records`} aside that contradict others.`,
};
