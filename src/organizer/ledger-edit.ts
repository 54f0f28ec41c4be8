import { type Refusal, refusalsOf } from "../analysis/ledger-check.ts";
import { type Ledger, type LedgerBatch, mostSteps, type Weighing } from "../model/ledger.ts";

/** Changes of a ledger, as functions from one version to the next; what cannot be is refused and changes nothing. */

/** As many batches as one claim holds: it is stored whole with every change. */
export const mostOfClaim = 40;

export type Changed = { ledger: Ledger; refusal: null } | { ledger: null; refusal: Refusal };

const blank: Weighing = {
  ...{ grams: "", tare: "", drip: "", blotted: "unknown", gainReason: "" },
  ...{ added: "", minutes: "", celsius: "" },
};

/** A weighing as it stands; an empty one where none was taken, or where the batch is not there yet. */
export const weighingAt = (batch: LedgerBatch | undefined, step: number): Weighing => batch?.weighings[step] ?? blank;

/**
 * One weighing changed.
 * Returns  the ledger; or the first thing of that batch that cannot be, and no ledger
 */
export function withWeighing(ledger: Ledger, at: number, step: number, change: Partial<Weighing>): Changed {
  return withBatch(ledger, at, (batch) => {
    const next = { ...weighingAt(batch, step), ...change };
    const { grams, tare, drip, added, minutes, celsius, blotted } = next;
    const empty = [grams, tare, drip, added, minutes, celsius].every((each) => each === "") && blotted === "unknown";
    return {
      ...batch,
      weighings: ledger.steps.map((_, place) =>
        place === step ? (empty ? null : next) : (batch.weighings[place] ?? null),
      ),
    };
  });
}

/** A batch changed, refused where something of it then cannot be. */
export function withBatch(ledger: Ledger, at: number, change: (batch: LedgerBatch) => LedgerBatch): Changed {
  const batches = ledger.batches.map((batch, place) => (place === at ? change(batch) : batch));
  const next = { ...ledger, batches };
  const refusal = refusalsOf(next).find(({ batch }) => batch === at);
  return refusal ? { ledger: null, refusal } : { ledger: next, refusal: null };
}

/** One more batch of a process, named by the next free number. */
export function withNewBatch(ledger: Ledger, product: number): Ledger {
  if (ledger.batches.length >= mostOfClaim) return ledger;
  const taken = ledger.batches.filter((batch) => batch.product === product).map(({ name }) => name);
  let number = 1;
  while (taken.includes(String(number))) number++;
  const weighings = ledger.steps.map(() => null);
  const batch = { product, name: String(number), lot: "", pair: "", weighings };
  return { ...ledger, batches: [...ledger.batches, batch] };
}

export const withoutBatch = (ledger: Ledger, at: number): Ledger => ({
  ...ledger,
  batches: ledger.batches.filter((_, place) => place !== at),
});

/** Names of steps as they are typed, with commas between; null unless there are 2 or more, all different. */
export function stepsIn(text: string): string[] | null {
  const steps = text.split(",").map((step) => step.trim());
  const good = steps.length >= 2 && steps.length <= mostSteps && new Set(steps).size === steps.length;
  return good && steps.every((step) => step !== "" && step.length <= 60) ? steps : null;
}

/** Other steps: weighings go with the names that stay; where none of a name is left they go by place. */
export function withSteps(ledger: Ledger, steps: readonly string[]): Ledger {
  const same = steps.length === ledger.steps.length;
  const from = steps.map((step, place) => {
    const before = ledger.steps.indexOf(step);
    // a list of the same length with a new name in it: a step was renamed
    return before >= 0 ? before : same && !steps.includes(ledger.steps[place] ?? "") ? place : -1;
  });
  const batches = ledger.batches.map((batch) => ({
    ...batch,
    weighings: from.map((place) => (place < 0 ? null : (batch.weighings[place] ?? null))),
  }));
  return { ...ledger, steps: [...steps], batches };
}

/** Was anything weighed at a step that the other list does not have? */
export const losesWeighings = (before: Ledger, after: Ledger): boolean => weighedTimes(after) < weighedTimes(before);

const weighedTimes = ({ batches }: Ledger): number =>
  batches.reduce((all, { weighings }) => all + weighings.filter((each) => each !== null).length, 0);
