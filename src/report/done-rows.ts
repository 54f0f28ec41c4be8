import type { StudyRecord } from "../model/record.ts";
import type { Result } from "../model/result.ts";
import type { reader } from "../words/en/reader.ts";
import type { Occasion } from "./occasion.ts";

type Words = typeof reader.done;
/** One item of the test report; no lines means that nobody recorded it. */
export type DoneRow = { label: string; lines: string[] };

/** What a report of a sensory test tells about how it was done, filled from the log. */
export function doneRows(record: StudyRecord, result: Result, occasion: Occasion, words: Words): DoneRow[] {
  return [
    ...productRows(record, result, words),
    ...servingRows(record, words),
    ...panelRows(record, result, words),
    ...occasionRows(record, occasion, words),
  ];
}

function productRows({ plan }: StudyRecord, { study }: Result, words: Words): DoneRow[] {
  const products = (study?.products ?? []).map(({ name, preparation, batches }) => ({
    label: name,
    lines: given(preparation, batches.length > 0 ? words.batches(batches) : words.noBatches),
  }));
  const looks = plan.looks === null ? "" : words.looksAre[plan.looks];
  return [...products, { label: words.looks, lines: given(looks, plan.looks === "masked" ? plan.masking : "") }];
}

function servingRows({ plan: { serving } }: StudyRecord, words: Words): DoneRow[] {
  const { portionGrams, servingCelsius, vessel, cleanser, pauseSeconds, swallow, retaste, warmUp, warmUpWhat } =
    serving;
  return [
    { label: words.portion, lines: portionGrams === null ? [] : [words.grams(portionGrams)] },
    { label: words.servedAt, lines: servingCelsius === null ? [] : [words.celsius(servingCelsius)] },
    { label: words.measured, lines: [] },
    { label: words.vessel, lines: given(vessel) },
    { label: words.between, lines: given(cleanser, words.pause(pauseSeconds)) },
    { label: words.warmUp, lines: [warmUp ? warmUpWhat.trim() || words.yes : words.none] },
    { label: words.tasting, lines: [words.swallow[swallow], words.retaste(retaste)] },
  ];
}

function panelRows({ plan, packet, judgments }: StudyRecord, result: Result, words: Words): DoneRow[] {
  const { alpha } = result;
  const power = result.family === "scale" ? null : result.power;
  const guesses = result.family === "choice" ? result.guesses : null;
  const rule = words.riskIs(alpha, plan.discriminatorShareSought);
  return [
    {
      label: words.panel,
      lines: given(words.panelIs(plan.people, judgments.length), plan.standsFor && words.standsFor(plan.standsFor)),
    },
    { label: words.experience, lines: [] },
    { label: words.rule, lines: given(rule, power ? words.beta(power.power) : "") },
    { label: words.ballot, lines: [words.ballotIs(packet.wording, packet.palette)] },
    { label: words.guesses, lines: guesses ? [words.guessesAre(guesses.ticked, guesses.right)] : [] },
  ];
}

function occasionRows(record: StudyRecord, occasion: Occasion, words: Words): DoneRow[] {
  const { plan, lockedAt, closedAt, revealedAt } = record;
  const screens = occasion.screens.map(({ widthPx, heightPx }) => words.screen(widthPx, heightPx));
  const { first, last, tablets } = occasion;
  return [
    { label: words.place, lines: given(plan.place) },
    { label: words.carried, lines: plan.serverKnowsKey === null ? [] : [words.knew(plan.serverKnowsKey)] },
    { label: words.tablets, lines: tablets === 0 ? [] : [words.tabletsAre(tablets, screens)] },
    {
      label: words.when,
      lines: given(
        words.lockedOn(lockedAt),
        first && last ? words.answersFrom(first, last) : "",
        closedAt ? words.closedOn(closedAt) : "",
        words.revealedOn(revealedAt),
      ),
    },
    { label: words.leader, lines: [] },
    { label: words.standard, lines: [] },
  ];
}

const given = (...lines: string[]): string[] => lines.map((line) => line.trim()).filter((line) => line !== "");
