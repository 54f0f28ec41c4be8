import type { Paper } from "../../model/event.ts";
import type { PanelType } from "../../model/plan.ts";
import type { PortionLeftOut } from "../../model/portion-check.ts";
import type { Departure, UnansweredReason } from "../../model/record.ts";
import type { Caveat } from "../../model/result.ts";
import { percent, pText, shortNumber, statistic, wholeNumber } from "../number.ts";
import { firstListed, limitText, listed } from "./phrases.ts";
import { spareReasons, voidReasons } from "./reasons.ts";
import { kitchenDepartures } from "./report-kitchen.ts";

type CaveatSentences = { [W in Caveat["what"]]: (caveat: Extract<Caveat, { what: W }>) => string };
type DepartureSentences = { [W in Departure["what"]]: (departure: Extract<Departure, { what: W }>) => string };

const answers = (count: number): string => (count === 1 ? "1 answer" : `${wholeNumber(count)} answers`);
const people = (count: number): string => (count === 1 ? "1 person" : `${wholeNumber(count)} people`);
/** Values from elsewhere may come without a name. */
const about = (attribute: string): string => (attribute === "" ? "" : `${attribute}: `);
const noted = (note: string): string => (note.trim() === "" ? "" : ` Note: “${note.trim()}”`);

/** A figure of the plan, in points of 100, as the scale has it. */
const supposedAs = (value: number, steps: number | null): string =>
  steps === null ? shortNumber(value) : shortNumber((value * (steps - 1)) / 100, 2);

/** Of which batches the test speaks, and what a few of them cost. */
function batchesDrawn(c: Extract<Caveat, { what: "batches-drawn" }>): string {
  const test = `F(${c.numeratorDf}, ${shortNumber(c.denominatorDf)}) is ${statistic(c.fValue)}, p ${pText(c.pValue)}`;
  const cost = c.seen
    ? `products are then judged against how batches of one product differ, and ${wholeNumber(c.fewest)} batches of a product leave few degrees of freedom`
    : "no spread between batches of one product was seen, which few batches cannot rule out";
  return c.leads === "mixed"
    ? `Batches count as drawn from many, so that the test speaks of other batches too: ${cost}.`
    : `The verdict speaks of the batches that were served. With batches as drawn from many, ${test}: ${cost}.`;
}

/** What the result does not show, one sentence for each caveat. */
export const caveats: CaveatSentences = {
  "key-mismatch": () =>
    "The opened key does not match the seal made at lock. Everything on this page is in doubt until that is explained.",
  "nature-unknown": () =>
    "The result says that the products could be told apart, not by what, and not which one is better.",
  "likeness-not-shown": () =>
    "The study set out to find a difference. When it finds none, that is no evidence that the products are alike.",
  "this-panel-only": (c) =>
    c.standsFor.trim() === ""
      ? "The result speaks of the people who tasted, on that day."
      : `The result speaks of this panel, which stands for: ${c.standsFor.trim().replace(/\.$/, "")}. Whether it does is a judgment, not a measurement.`,
  "guessing-model": () =>
    "“Can tell” rests on a model: a person either tells for certain or guesses blindly, with nothing in between.",
  "repeats-pooled": (c) =>
    `${answers(c.judgments)} came from ${people(c.people)}. The test of a difference allows for that. A plain count of answers gives no bounds; how people differ, and the bounds that go with it, stand above.`,
  "one-property": (c) =>
    `The result is about ${c.property.trim() === "" ? "the property that was asked for" : `\u201c${c.property.trim()}\u201d`}: the products may differ in others, and nothing is said of liking.`,
  "leaning-model": () =>
    "People lean to one of the two answers; the test holds the two kinds of trays against each other, and so allows for that.",
  "people-compared": (c) =>
    `${answers(c.judgments)} came from ${people(c.people)}, who differ even if nothing leads. The test compares people, not answers.`,
  "likeness-by-spread": (c) =>
    `${answers(c.judgments)} came from ${people(c.people)}. The bound allows for how people differ (beta-binomial, an approximation), and a plain count of answers would not.`,
  "sessions-differ": (c) =>
    `The sessions differ by more than chance explains (p ${pText(c.pValue)}): one figure for all of them hides that.`,
  "stopped-early": (c) =>
    `The rule ended the study after ${wholeNumber(c.judgments)} of ${answers(c.planned)}. Studies that stop early show differences larger than they are, on average.`,
  "after-the-stop": (c) => `${answers(c.answers)} came after the look that decided. They are listed, not counted.`,
  "exploratory-questions": (c) =>
    `${c.questions === 1 ? "One further question" : `${wholeNumber(c.questions)} further questions`} stood outside of the family named at lock: a look around, not a test.`,
  "kinds-plan-could-not-find": (c) =>
    `If the distance is d\u2032 ${shortNumber(c.dPrime)}, a panel as planned shows it ${percent(c.power)} of the time: a miss was more likely than a find.`,
  "scale-plan-could-not-find": (c) =>
    `If products differ by ${supposedAs(c.points, c.steps)}${c.steps === null ? " points of 100" : " steps"} and marks scatter by ${supposedAs(c.deviation, c.steps)} as supposed, a panel as planned shows it ${percent(c.power)} of the time: a miss was more likely than a find.`,
  "one-person": (c) =>
    `${answers(c.judgments)} of one person: the result speaks of that person on that day, and of nobody else.`,
  "few-batches": (c) => {
    if (c.batches === 0) return `No batch of “${c.product}” is on record.`;
    return c.batches === 1
      ? `All portions of “${c.product}” came from one batch, so the result says nothing about other cooks of it.`
      : `The portions of “${c.product}” came from ${c.batches} batches: what is said holds for these, and says little about other days.`;
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
  "people-below-plan": (c) => `${people(c.planned)} planned, ${wholeNumber(c.answered)} with an answer that counts.`,
  "person-once": (c) =>
    `Each person counts once: ${c.trays.length === 1 ? "tray" : "trays"} ${listed(c.trays)} ${c.trays.length === 1 ? "is" : "are"} left out of the numbers, since another tray of that seat counts.`,
  "limit-not-nothing": (c) =>
    `Within the limit does not mean that nobody can tell: up to ${limitText(c.discriminatorShare)} was called alike beforehand.`,
  "plan-could-not-show": (c) =>
    `Even if nobody can tell, a panel as planned shows fewer than ${limitText(c.discriminatorShare)} only ${percent(c.power)} of the time: a miss was more likely than a find.`,
  "preference-plan-could-not-find": (c) =>
    `If ${percent(c.share)} of those with a preference prefer one of the two, a panel as planned shows it ${percent(c.power)} of the time: a miss was more likely than a find.`,
  "preference-not-size": () =>
    "A preference says which one people would take, not how much better they like it, and not that they like either.",
  "panel-not-customers": (c) =>
    `${panelSentences[c.panelType]} What customers prefer has to be asked of people recruited as such.`,
  "none-frequent": (c) =>
    `${people(c.none)} of ${wholeNumber(c.of)} had no preference. Leaving that many out makes the test speak of the others only.`,
  "none-split": (c) =>
    `The answers “no preference” were split evenly between the two${c.leftOut > 0 ? "; the odd one was left out" : ""}. That makes a preference harder to show.`,
  "position-left-out": (c) =>
    c.balanced
      ? "The place on the tray is balanced by the serving orders and is not a term of the test that leads."
      : "The place on the tray is not a term of the test that leads, and the serving orders, with not everybody marking everything as often, may balance it in part only.",
  "batches-drawn": (c) => batchesDrawn(c),
  "further-attributes": (c) =>
    c.counting > 1
      ? `${wholeNumber(c.counting)} properties share the agreed risk. ${c.attributes === 1 ? "1 other was" : `${wholeNumber(c.attributes)} others were`} looked at beside them and ${c.attributes === 1 ? "is" : "are"} exploratory: a small p among several is easily chance.`
      : `The question was about what stands first here. The other ${c.attributes === 1 ? "one is" : `${wholeNumber(c.attributes)} are`} looked at beside it: a small p among several is easily chance.`,
  "repeats-averaged": (c) =>
    `${wholeNumber(c.judgments)} marks came from ${people(c.people)}. ${c.tested ? "The test knows which marks are one person\u2019s: it counts people, and further" : "Further"} marks are no further people.`,
  "trays-below-plan": (c) =>
    `${wholeNumber(c.planned)} trays planned, ${wholeNumber(c.marked)} with a mark. Who has fewer is averaged over what is there.`,
  "incomplete-panelists": (c) =>
    `${about(c.attribute)}${firstListed(c.panelists)} did not mark every product. What they marked counts, and nothing is filled in.`,
  "widest-difference": (c) =>
    `${c.attribute === "" ? "Pair" : `${c.attribute}: pair`} by pair, the answers do not rule out differences of up to ${shortNumber(c.points)} ${c.unit}.`,
  "steps-equal": (c) =>
    `${c.attributes.some((attribute) => attribute !== "") ? `${listed(c.attributes.map((attribute) => attribute || "the property without a name"))}: means` : "Means"} take the steps of the scale as equally far apart, and hide how the answers spread. How often each step was chosen stands beside them.`,
  "device-kinds-mixed": (c) =>
    `Marks were made in different ways (${listed(c.pointers)}), which may shift them a little.`,
  "ranks-no-distance": () =>
    "Ranks say who is before whom and nothing of how far: two products next to each other may be close or wide apart.",
  "rankings-incomplete": (c) =>
    `${firstListed(c.panelists)} did not rank every product. Such an order cannot be held against the others, so it is left out of every number.`,
  "places-shared": (c) =>
    `${people(c.people)} gave several products one place. They get the mean of the places that they share.`,
  "widest-rank-difference": (c) =>
    `All pairs together, the orders do not rule out rank sums that lie up to ${shortNumber(c.difference)} apart; ${shortNumber(c.most)} is the most that there can be.`,
  "order-as-a-whole": () =>
    "The test speaks of the order as a whole: it rises as expected somewhere. It does not show every step of it.",
  "lengths-mixed": (c) =>
    `The line was shown at different lengths (${listed(c.lengthsMm.map((length) => `${shortNumber(length)} mm`))}).`,
};

const panelSentences: Record<PanelType, string> = {
  colleagues: "The panel was people of the house.",
  trained: "The panel was trained assessors, whose liking is not that of those who eat the food.",
  consumers: "The panel was recruited among people who eat the food.",
};

const questions = (count: number): string => (count === 1 ? "1 question" : `${wholeNumber(count)} questions`);

const stopReasons: Record<Extract<Departure, { what: "stopped" }>["reason"], string> = {
  stopped: "the panelist stopped",
  "cannot-answer": "the panelist could not answer",
  "not-cleared": "the panelist did not take part, or was not cleared to taste",
};

const paperNames: Record<string, string> = {
  "kitchen-by-product": "kitchen sheet by product, which holds the key",
  "kitchen-by-tray": "kitchen sheet by tray, which holds the key",
  "tray-cards": "tray cards",
  labels: "labels",
  seating: "seating list",
  "sealed-page": "sealed page, which holds the key",
  "backup-ballots": "backup ballots",
  "check-list": "check list",
  "door-sign": "sign at the door",
  "prep-list": "preparation list",
  "process-draw": "who got which process",
  "weighing-sheet": "weighing sheet",
} satisfies Record<Paper, string>;
const unanswered: Record<UnansweredReason, string> = {
  "never-opened": "never opened",
  "not-answered": "opened, not answered",
  stopped: "the panelist stopped or could not go on",
  voided: "the ballot was voided",
  contested: "answered twice, never settled",
  replaced: "a spare was served instead",
  "too-late": "answered after the close",
  "not-checked": "typed in from paper, not checked",
};
const paperWhy: Record<Extract<Departure, { what: "paper-not-checked" }>["why"], string> = {
  once: "was typed in by one person only",
  differs: "was typed in by two people who did not type the same",
};
const leftOut: Record<PortionLeftOut, string> = {
  swallowed: "not all of it was spat out, so there was nothing to weigh",
  "not-weighed": "a reading of the balance is missing",
  contradicted: "two readings of the balance contradict each other, and nobody ruled",
  impossible: "the readings cannot be of one portion",
};
/** "Tray 17, 482", "Portions of tray 17, 482; tray 19, 305". */
const listOfPortions = (portions: readonly { tray: number; code: string }[]): string =>
  `${portions.length === 1 ? "Tray" : "Trays"} ${firstListed(portions.map(({ tray, code }) => `${tray} (${code})`))}`;
const records = (count: number): string => (count === 1 ? "1 record" : `${wholeNumber(count)} records`);
const spare = (d: Extract<Departure, { what: "spare-served" }>): string =>
  d.instead === null ? spareReasons[d.reason] : `instead of tray ${d.instead}`;

/** What did not go by the plan, one sentence for each departure. */
export const departures: DepartureSentences = {
  "ballot-voided": (d) => `Tray ${d.tray}: the ballot was voided (${voidReasons[d.reason]}).${noted(d.note)}`,
  "spare-served": (d) => `Tray ${d.tray}: a spare, served ${spare(d)}.${noted(d.note)}`,
  "spare-unexplained": (d) => `Tray ${d.tray}: a spare was answered, and nobody recorded why. It was not counted.`,
  "contest-settled": (d) =>
    `Tray ${d.tray}: it was answered twice, on tablets or on paper; the lead settled which ballot counts.${noted(d.note)}`,
  "contest-open": (d) =>
    `Tray ${d.tray}: it was answered twice, on tablets or on paper, and that was never settled. Neither ballot counts.`,
  "late-excluded": (d) => `Tray ${d.tray}: an answer came in after the close and was left out.`,
  "late-admitted": (d) => `Tray ${d.tray}: an answer came in after the close, and the lead let it in.${noted(d.note)}`,
  "after-reveal": (d) => `Tray ${d.tray}: an answer came in after the reveal and was left out.`,
  "off-plan": (d) => `Tray ${d.tray}: an answer names a tray or a code that the plan does not hold. It was left out.`,
  unfinished: (d) => `Tray ${d.tray}: the answer was kept, but the tray was never finished. The answer counts.`,
  "not-judged": (d) =>
    `Tray ${d.tray}: ${questions(d.questions)} left without a mark, because the panelist could not judge. No answer, not zero.`,
  "not-reached": (d) => `Tray ${d.tray}: ${questions(d.questions)} never answered.`,
  "marks-late": (d) => `Tray ${d.tray}: ${questions(d.questions)} answered after the close and left out.`,
  "other-length": (d) => `Tray ${d.tray}: the line was ${shortNumber(d.lengthMm)} mm long there, not as locked.`,
  "clock-hidden": (d) =>
    `Tray ${d.tray}: the app was in the background while the chew was timed, before ${questions(d.questions)}. The moment is in doubt.`,
  stopped: (d) => `Tray ${d.tray}: ${stopReasons[d.reason]}.`,
  "typed-from-paper": (d) =>
    `${d.trays.length === 1 ? "Tray" : "Trays"} ${firstListed(d.trays)}: answered on paper, typed in by one person and checked by a second. ${d.trays.length === 1 ? "It counts." : "They count."}`,
  "paper-not-checked": (d) =>
    `Tray ${d.tray}: a ballot on paper ${paperWhy[d.why]}. It is not checked and does not count.`,
  "paper-after-reveal": (d) =>
    `Tray ${d.tray}: a ballot on paper was typed in after the reveal. What is typed then does not count, since the key could have been seen.`,
  "paper-typed-anew": (d) =>
    `Tray ${d.tray}: an entry of its ballot on paper was voided, and two people typed the ballot in anew. The new entry counts.`,
  "key-reprinted": (d) => `Printed again after lock: ${paperNames[d.paper] ?? d.paper}.`,
  "closed-with-unsent": (d) =>
    `The study was closed while ${records(d.unsent)} ${d.unsent === 1 ? "was" : "were"} known to be unsent.`,
  "rival-event": (d) => `A second record of a kind that can stand only once was set aside: ${d.kind}.`,
  quarantined: (d) =>
    `The server set ${records(d.events)} aside that ${d.events === 1 ? "contradicts" : "contradict"} others.`,
  "not-answered": (d) =>
    `${d.trays.length === 1 ? "Tray" : "Trays"} ${firstListed(d.trays)}: no counted answer (${unanswered[d.why]}).`,
  "seat-counted-twice": (d) =>
    `Seat ${d.seat} has more than one counted answer, on trays ${listed(d.trays)}: a spare was served although another answer of that seat stands.`,
  "close-note": (d) => `Noted at the close: “${d.note.trim()}”`,
  "records-missing": (d) =>
    `${records(d.records)} known at the close or the reveal ${d.records === 1 ? "is" : "are"} missing here. The numbers may change.`,
  "portions-left-out": (d) =>
    `${listOfPortions(d.portions)}: ${d.portions.length === 1 ? "it was chewed and does" : "they were chewed and do"} not count (${leftOut[d.why]}).`,
  "weighed-not-chewed": (d) =>
    `${listOfPortions(d.portions)}: the closed cup was weighed, and no counted tablet says that the portion was chewed. It does not count.`,
  "portion-off-mass": (d) =>
    `Tray ${d.tray}, ${d.code}: the portion was ${shortNumber(Math.abs(d.grams), 3)} g ${d.grams < 0 ? "lighter" : "heavier"} than planned, more than was allowed. It counts.`,
  "portions-weighed-late": (d) =>
    `${listOfPortions(d.portions)}: ${d.portions.length === 1 ? "the closed cup was" : `${wholeNumber(d.portions.length)} closed cups were`} entered more than ${wholeNumber(d.within)} s after the weighing page knew that the portion was chewed${d.portions.length === 1 ? "" : ", the longest"} after ${wholeNumber(d.longest)} s. ${d.portions.length === 1 ? "It counts" : "They count"}. A cup that was weighed in time and entered later is told here too.`,
  "weighings-taken-back": (d) =>
    `${d.readings === 1 ? "1 reading" : `${wholeNumber(d.readings)} readings`} of the balance ${d.readings === 1 ? "was" : "were"} taken back by whoever weighed.`,
  "weighings-off-plan": (d) =>
    `${d.readings === 1 ? "1 reading names" : `${wholeNumber(d.readings)} readings name`} a tray or a code that the plan does not hold. ${d.readings === 1 ? "It was" : "They were"} left out.`,
  ...kitchenDepartures,
  "records-not-read": (d) =>
    `${records(d.records)} of a newer version of Cloche ${d.records === 1 ? "was" : "were"} not used. The numbers may change.`,
};
