import type { RankResult, Result, ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { points } from "../words/number.ts";
import { balanceOf } from "./balance.ts";
import { leastInGroup } from "./figures.tsx";

/** The check of the serving: answers by order and place; for a scale the balance of places and carry-over. */
export function Orders({ result, lead }: { result: Result; lead: boolean }) {
  const { orders, study } = result;
  if (orders.length === 0) return null;
  const least = lead ? 0 : leastInGroup;
  const tables = tablesOf(result);
  const counted = result.family !== "scale" && result.family !== "rank" && result.family !== "portions";
  const withheld = counted && tables.some(({ groups }) => !shows(groups, least));
  return (
    <div class="part">
      <h3>{reader.orders.heading}</h3>
      <p class="fine">
        {report.checks.note} {reader.orders.letters((study?.products ?? []).map(({ name }) => name))}{" "}
        {withheld && reader.orders.withheld(least)}
      </p>
      <div class="pair">
        {tables.map((table) => (
          <Groups key={table.heads[0]} {...table} least={least} />
        ))}
      </div>
      {!counted && <BalanceTables result={result} products={servedOf(result)} />}
      {!counted && result.family !== "portions" && (
        <Positions shown={positionsOf(result)} mean={meanHead(result)} least={least} />
      )}
    </div>
  );
}

/** Everything that was on the trays: of chewed portions the inert ones too, which the result does not compare. */
const servedOf = (result: Result): string[] =>
  result.family === "portions"
    ? (result.study?.products ?? []).map(({ name }) => name)
    : result.family === "scale" || result.family === "rank"
      ? result.products
      : [];

type Group = { group: string; judgments: number; correct: number | null };
type GroupTable = { heads: [string, string, string]; groups: Group[] };

function tablesOf(result: Result): GroupTable[] {
  const { checks } = report;
  const byOrder = result.orders.map(({ order, ...counts }) => ({ group: order, ...counts }));
  if (result.family === "pair") {
    const { order, answered, first } = reader.orders.pair;
    return [{ heads: [order, answered, first], groups: byOrder }];
  }
  const orders: GroupTable = { heads: [checks.order, checks.answered, checks.right], groups: byOrder };
  if (result.family === "scale" || result.family === "rank" || result.family === "portions") return [orders];
  if (result.family === "kinds")
    return [{ ...orders, heads: [checks.order, checks.answered, checks.told[result.method]] }];
  const byPlace = result.oddPositions.map(({ position, ...counts }) => ({
    group: reader.orders.places[position - 1] ?? String(position),
    ...counts,
  }));
  return [orders, { heads: [checks.position(result.method), checks.answered, checks.right], groups: byPlace }];
}

const shows = (groups: readonly Group[], least: number): boolean =>
  groups.every(({ judgments, correct }) => correct !== null && judgments >= least);

function Groups({ heads, groups, least }: GroupTable & { least: number }) {
  // one hidden cell could be found by subtraction, so a column is shown whole or not at all
  const right = shows(groups, least);
  const [head, answered, counted] = heads;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{head}</th>
          <th scope="col" class="number">
            {answered}
          </th>
          {right && (
            <th scope="col" class="number">
              {counted}
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {groups.map(({ group, judgments, correct }) => (
          <tr key={group}>
            <th scope="row">{group}</th>
            <td class="number">{judgments}</td>
            {right && <td class="number">{correct}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Places and carry-over of the trays that count: counts of servings, not of answers. */
function BalanceTables({ result, products }: { result: Result; products: readonly string[] }) {
  const words = reader.orders.balance;
  const { places, follows } = balanceOf(result.orders, products.length);
  return (
    <div class="part">
      <h3>{words.heading}</h3>
      <p class="fine">{words.note}</p>
      <div class="pair">
        <Counts
          head={words.places}
          columns={products.map((_, at) => words.place(at + 1))}
          rows={[...products]}
          counts={places}
        />
        <Counts
          head={words.after}
          columns={products.map(words.afterProduct)}
          rows={[...products]}
          counts={follows}
          self
        />
      </div>
    </div>
  );
}

type CountsProps = { head: string; columns: string[]; rows: string[]; counts: number[][]; self?: boolean };

/** `self`: a product never comes after itself, so that cell is no count. */
function Counts({ head, columns, rows, counts, self = false }: CountsProps) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{head}</th>
          {columns.map((column) => (
            <th scope="col" class="number" key={column}>
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, at) => (
          <tr key={row}>
            <th scope="row">{row}</th>
            {columns.map((column, of) => (
              <td class="number" key={column}>
                {self && at === of ? "\u2013" : counts[at]?.[of]}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const headingOf = ({ attribute, moment }: AttributeResult): string =>
  [attribute, moment ? reader.scale.moment(moment) : ""].filter((part) => part !== "").join(", ");

/** Several products on a tray, each with a value or a rank. */
type Severals = ScaleResult | RankResult;
type Placed = { heading: string; positions: AttributeResult["positions"] };

const positionsOf = (result: Severals): Placed[] =>
  result.family === "rank"
    ? [{ heading: result.property, positions: result.positions }]
    : result.attributes.map((attribute) => ({ heading: headingOf(attribute), positions: attribute.positions }));
const meanHead = ({ family }: Severals): string =>
  family === "rank" ? (report.rank.sums.columns(0)[2] ?? "") : reader.scale.positions.mean;

/** Means by place served; only where every place has so many marks that no mean is one person's. */
function Positions({ shown: all, mean: head, least }: { shown: readonly Placed[]; mean: string; least: number }) {
  const words = reader.scale.positions;
  const shown = all.filter(
    ({ positions }) => positions.length > 0 && positions.every(({ judgments }) => judgments >= least),
  );
  if (shown.length === 0) return null;
  return (
    <div class="part">
      <h3>{words.heading}</h3>
      <p class="fine">{words.note}</p>
      {shown.map(({ heading, positions }, index) => (
        <table key={`${heading} ${index}`} class="figures">
          <caption>{heading}</caption>
          <thead>
            <tr>
              <th scope="col">{words.place}</th>
              <th scope="col" class="number">
                {words.marks}
              </th>
              <th scope="col" class="number">
                {head}
              </th>
            </tr>
          </thead>
          <tbody>
            {positions.map(({ position, judgments, mean }) => (
              <tr key={position}>
                <th scope="row">{position}</th>
                <td class="number" data-head={words.marks}>
                  {judgments}
                </td>
                <td class="number" data-head={head}>
                  {points(mean, 1)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </div>
  );
}
