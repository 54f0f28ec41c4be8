import { reader } from "../words/en/reader.ts";
import { doneRows } from "./done-rows.ts";
import type { Opened } from "./opened-study.ts";
import { Orders } from "./orders.tsx";
import { Temperatures } from "./temperatures.tsx";

/** How the study was done: the items of a test report, the waves, and the check of orders and places. */
export function Done({ study, lead }: { study: Opened; lead: boolean }) {
  const { record, result, occasion } = study;
  const words = reader.done;
  const rows = doneRows(record, result, occasion);
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
      <Temperatures record={record} />
      <Orders result={result} lead={lead} />
    </section>
  );
}

function Waves({ record: { plan } }: { record: Opened["record"] }) {
  const words = reader.done;
  if (plan.waves.length === 0) return null;
  return (
    <div class="part">
      <h3>{words.waves}</h3>
      <table class="figures">
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
              <th scope="row" class="number" data-head={words.wave}>
                {index + 1}
              </th>
              <td data-head={words.starts}>{wave.starts || words.unknown}</td>
              <td class="number" data-head={words.people}>
                {wave.people}
              </td>
              {plan.products.map(({ id, name }) => (
                <td key={id} data-head={words.batchesOf(name)}>
                  {wave.batches[id]?.join(", ") || words.unknown}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
