import { type PreparedWave, preparation } from "../design/preparation.ts";
import { rawGrams } from "../design/raw-grams.ts";
import { plannedTrays } from "../design/trays.ts";
import type { Product } from "../model/plan.ts";
import { kitchenPapers } from "../words/en/organizer-kitchen-papers.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { rawWords } from "../words/en/organizer-shopping.ts";
import { FlowSheet } from "./paper-parts.tsx";
import { type Preparing, PrepFacts } from "./prep-facts.tsx";
import type { PaperSize } from "./use-print.ts";

const words = kitchenPapers.prep;

/**
 * What the kitchen buys and prepares, in all and for each wave. Made without the key: it holds no code.
 *
 * Throws   before lock, as `plannedTrays`
 */
export function PrepList({ lock, size }: { lock: Preparing; size: PaperSize }) {
  const { plan, packet } = lock;
  const trays = packet
    ? packet.trays.map(({ wave, spare, codes }) => ({ wave, spare, cups: codes.length }))
    : plannedTrays(plan);
  const waves = preparation(plan, trays);
  const byLot = waves.some(({ products }) => products.some(({ portions }) => portions.least !== portions.most));
  return (
    <FlowSheet lock={lock} name={paperNames["prep-list"]} size={size} kitchen={kitchenPapers.kitchenOnly}>
      <p class="small-print">
        {words.lead} {byLot ? words.upTo : ""} {plan.serving.portionGrams === null ? words.noPortion : ""}
      </p>
      <Shopping lock={lock} waves={waves} />
      {waves.map((wave) => (
        <Wave key={wave.wave} lock={lock} wave={wave} />
      ))}
    </FlowSheet>
  );
}

const gramsOf = ({ plan }: Preparing, portions: number): number | null =>
  plan.serving.portionGrams === null ? null : Math.round(plan.serving.portionGrams * portions * 10) / 10;

/** Raw and bought grams of so many portions of a product; null where the plan does not say enough. */
const backOf = ({ plan }: Preparing, portions: number, product: Product) =>
  plan.serving.portionGrams === null ? null : rawGrams(portions, plan.serving.portionGrams, product);

const sumOf = <T,>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((sum, item) => sum + value(item), 0);

/** The whole study: each product with how it is prepared. */
function Shopping({ lock, waves }: { lock: Preparing; waves: readonly PreparedWave[] }) {
  const { serving, products } = lock.plan;
  const warmUps = sumOf(waves, (wave) => wave.warmUps);
  return (
    <section class="sheet-part">
      <h2>{words.shopping}</h2>
      <table class="prep">
        <thead>
          <tr>
            <th scope="col">{words.columns.product}</th>
            <th scope="col" class="number">
              {words.columns.portions}
            </th>
            <th scope="col" class="number">
              {words.columns.grams}
            </th>
            <th scope="col" class="number">
              {words.columns.raw}
            </th>
            <th scope="col" class="number">
              {words.columns.bought}
            </th>
          </tr>
        </thead>
        <tbody>
          {products.map((product, at) => {
            const { id, name, preparation: made } = product;
            const least = sumOf(waves, (wave) => wave.products[at]?.portions.least ?? 0);
            const most = sumOf(waves, (wave) => wave.products[at]?.portions.most ?? 0);
            const back = backOf(lock, most, product);
            return (
              <tr key={id}>
                <th scope="row">
                  {name}
                  <span class="small-print prep-made">{made}</span>
                </th>
                <td class="number">{words.portions(least, most)}</td>
                <td class="number">{words.grams(gramsOf(lock, most))}</td>
                <td class="number">{rawWords.grams(back?.raw ?? null)}</td>
                <td class="number">{rawWords.grams(back?.bought ?? null)}</td>
              </tr>
            );
          })}
          {warmUps > 0 ? (
            <tr>
              <th scope="row">{words.warmUp(serving.warmUpWhat)}</th>
              <td class="number">{warmUps}</td>
              <td class="number">{words.grams(gramsOf(lock, warmUps))}</td>
              <td class="number">{rawWords.grams(null)}</td>
              <td class="number">{rawWords.grams(null)}</td>
            </tr>
          ) : null}
        </tbody>
      </table>
      {serving.portionGrams === null ? null : <Reckoned lock={lock} waves={waves} portion={serving.portionGrams} />}
      <PrepFacts
        lock={lock}
        count={{
          coded: sumOf(waves, ({ coded }) => coded),
          references: sumOf(waves, ({ references }) => references),
          warmUps,
          trays: sumOf(waves, (wave) => wave.trays + wave.spareTrays),
          people: sumOf(waves, ({ people }) => people),
        }}
      />
    </section>
  );
}

/** How raw grams follow from what is served, product by product, with every loss and its base. */
function Reckoned({ lock, waves, portion }: { lock: Preparing; waves: readonly PreparedWave[]; portion: number }) {
  return (
    <dl class="prep-facts reckoned">
      {lock.plan.products.map((product, at) => {
        const portions = sumOf(waves, (wave) => wave.products[at]?.portions.most ?? 0);
        const spare = sumOf(waves, (wave) => wave.products[at]?.spare ?? 0);
        const back = rawGrams(portions, portion, product);
        return (
          <div key={product.id}>
            <dt>{product.name}</dt>
            <dd>{rawWords.reckoned({ portions, spare, portion, back, product })}</dd>
          </div>
        );
      })}
    </dl>
  );
}

function Wave({ lock, wave }: { lock: Preparing; wave: PreparedWave }) {
  const { columns } = words;
  return (
    <section class="sheet-part prep-wave">
      <h2>
        {paperWords.wave(wave.wave, wave.starts)}
        {wave.session ? `, ${wave.session}` : ""}: {words.waveHead(wave.people, wave.trays, wave.spareTrays)}
      </h2>
      <table class="prep">
        <thead>
          <tr>
            <th scope="col">{columns.product}</th>
            <th scope="col">{columns.batch}</th>
            <th scope="col" class="number">
              {columns.portions}
            </th>
            <th scope="col" class="number">
              {columns.grams}
            </th>
            <th scope="col" class="number">
              {columns.raw}
            </th>
            <th scope="col" class="done">
              {columns.done}
            </th>
          </tr>
        </thead>
        <tbody>
          {wave.products.flatMap(({ product, batches, portions: all }) =>
            (batches.length > 0 ? batches : [{ batch: "", portions: all }]).map(
              ({ batch, portions: { least, most } }) => (
                <tr key={`${product.id} ${batch}`}>
                  <th scope="row">{product.name}</th>
                  <td>{batch.trim() || words.noBatch}</td>
                  <td class="number">{words.portions(least, most)}</td>
                  <td class="number">{words.grams(gramsOf(lock, most))}</td>
                  <td class="number">{rawWords.grams(backOf(lock, most, product)?.raw ?? null)}</td>
                  <td class="done">
                    <span class="box" aria-hidden="true" />
                  </td>
                </tr>
              ),
            ),
          )}
          {wave.warmUps > 0 ? (
            <tr>
              <th scope="row" colSpan={2}>
                {words.warmUp(lock.plan.serving.warmUpWhat)}
              </th>
              <td class="number">{wave.warmUps}</td>
              <td class="number">{words.grams(gramsOf(lock, wave.warmUps))}</td>
              <td class="number">{rawWords.grams(null)}</td>
              <td class="done">
                <span class="box" aria-hidden="true" />
              </td>
            </tr>
          ) : null}
        </tbody>
      </table>
      <PrepFacts lock={lock} count={{ ...wave, trays: wave.trays + wave.spareTrays }} wave={wave} />
    </section>
  );
}
