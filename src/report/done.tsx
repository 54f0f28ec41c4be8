import type { Result } from "../model/result.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { doneRows } from "./done-rows.ts";
import type { Opened } from "./load.ts";

/** Fewer people than this are not broken down for a reader: in a small group an answer is a person's answer. */
const leastInGroup = 5;

/** How the study was done: the items of a test report, the waves, and the check of orders and places. */
export function Done({ study, lead }: { study: Opened; lead: boolean }) {
  const { record, result, occasion } = study;
  const words = reader.done;
  const rows = doneRows(record, result, occasion, words);
  const blank = rows.filter(({ lines }) => lines.length === 0).map(({ label }) => label);
  return (
    <section class="done">
      <h2>{words.heading}</h2>
      <dl class="facts">
        {rows
          .filter(({ lines }) => lines.length > 0)
          .map(({ label, lines }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>
                {lines.map((line) => (
                  <p key={line}>{line}</p>
                ))}
              </dd>
            </div>
          ))}
        {blank.length > 0 && (
          <div>
            <dt>{words.notRecorded}</dt>
            <dd>{words.blanks(blank)}</dd>
          </div>
        )}
      </dl>
      <Waves record={record} />
      <Orders result={result} least={lead ? 0 : leastInGroup} />
    </section>
  );
}

function Waves({ record: { plan } }: { record: Opened["record"] }) {
  const words = reader.done;
  if (plan.waves.length === 0) return null;
  return (
    <div class="part">
      <h3>{words.waves}</h3>
      <table>
        <thead>
          <tr>
            <th scope="col" class="number">
              {words.wave}
            </th>
            <th scope="col">{words.starts}</th>
            <th scope="col" class="number">
              {words.people}
            </th>
            {plan.products.map(({ id, name }) => (
              <th scope="col" key={id}>
                {words.batchesOf(name)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {plan.waves.map((wave, index) => (
            <tr key={wave.id}>
              <th scope="row" class="number">
                {index + 1}
              </th>
              <td>{wave.starts || words.unknown}</td>
              <td class="number">{wave.people}</td>
              {plan.products.map(({ id }) => (
                <td key={id}>{wave.batches[id]?.join(", ") || words.unknown}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** Answers by serving order and by place of the odd sample. `least`: smallest group whose right answers are shown. */
function Orders({ result, least }: { result: Result; least: number }) {
  const { orders, study } = result;
  const oddPositions = result.family === "choice" ? result.oddPositions : [];
  if (orders.length === 0) return null;
  const checks = report.checks;
  const byPlace = oddPositions.map(({ position, ...counts }) => ({
    group: reader.orders.places[position - 1] ?? String(position),
    ...counts,
  }));
  const byOrder = orders.map(({ order, ...counts }) => ({ group: order, ...counts }));
  const withheld = [byOrder, byPlace].some((groups) => !shows(groups, least));
  return (
    <div class="part">
      <h3>{reader.orders.heading}</h3>
      <p class="fine">
        {checks.note} {reader.orders.letters((study?.products ?? []).map(({ name }) => name))}{" "}
        {withheld && reader.orders.withheld(least)}
      </p>
      <div class="pair">
        <Groups head={checks.order} groups={byOrder} least={least} />
        <Groups head={checks.position} groups={byPlace} least={least} />
      </div>
    </div>
  );
}

type Group = { group: string; judgments: number; correct: number | null };
const shows = (groups: Group[], least: number): boolean => groups.every(({ judgments }) => judgments >= least);

function Groups({ head, groups, least }: { head: string; groups: Group[]; least: number }) {
  const checks = report.checks;
  // one hidden cell could be found by subtraction, so a column is shown whole or not at all
  const right = shows(groups, least);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{head}</th>
          <th scope="col" class="number">
            {checks.answered}
          </th>
          {right && (
            <th scope="col" class="number">
              {checks.right}
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
