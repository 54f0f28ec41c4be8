import type { PreparedWave } from "../design/preparation.ts";
import { shapeOf } from "../model/method.ts";
import type { BlindPacket } from "../model/packet.ts";
import type { Plan } from "../model/plan.ts";
import { kitchenPapers } from "../words/en/organizer-kitchen-papers.ts";

const words = kitchenPapers.prep;

/** A locked study, or a plan that is not locked yet. */
export type Preparing = { plan: Plan; packet: Pick<BlindPacket, "trays" | "reference" | "commitment"> | null };

type Count = { coded: number; references: number; warmUps: number; trays: number; people: number };
type Row = readonly [label: string, said: string];

/** Vessels, labels, what clears the palate, and times: of everything together, or of one wave. */
export function PrepFacts({ lock, count, wave }: { lock: Preparing; count: Count; wave?: PreparedWave }) {
  const rows = [...vesselRows(lock, count, wave !== undefined), ...servingRows(lock.plan, count), ...timeRows(wave)];
  return (
    <dl class="prep-facts">
      {rows.map(([label, said]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{said}</dd>
        </div>
      ))}
    </dl>
  );
}

/** The lead's own words of the vessel, the balance and the temperature stand once, where everything is together. */
function vesselRows({ plan, packet }: Preparing, { coded, references, warmUps }: Count, ofWave: boolean): Row[] {
  const { chew, method, serving } = plan;
  const chewed = method === "chew-and-weigh";
  const vessel = ofWave ? "" : serving.vessel.trim();
  const mark = packet?.reference ?? shapeOf(method).reference ?? "";
  const rows: Row[] = [
    [words.vessel, [words.cups(coded, references, mark, warmUps, chewed), vessel].filter(Boolean).join("; ")],
  ];
  if (chewed && chew.rinseGrams !== null) rows.push([words.rinse, words.rinseAre(coded, chew.rinseGrams)]);
  if (chewed && !ofWave) rows.push([words.balance, words.balanceIs(chew.balanceStep)]);
  if (!ofWave && serving.servingCelsius !== null) rows.push([words.served, words.celsius(serving.servingCelsius)]);
  return rows;
}

function servingRows({ serving: { cleanser } }: Plan, { coded, references, trays, people }: Count): Row[] {
  const labels: Row = [words.labels, words.labelsAre(coded + references, trays)];
  return cleanser.trim() === "" ? [labels] : [labels, [words.cleanser, words.cleanserFor(cleanser, people)]];
}

const timeRows = (wave: PreparedWave | undefined): Row[] =>
  wave
    ? [
        [
          words.times,
          words.timesAre({
            ...{ starts: wave.starts, out: wave.outOfHeat, until: wave.bestUntil },
            ...{ last: wave.lastCup, over: wave.over },
          }),
        ],
      ]
    : [];
