import type { Description } from "../analysis/describe.ts";
import { unevenOf } from "../analysis/uneven.ts";
import type { ChoiceResult, Result, ScaleResult } from "../model/result.ts";
import { trayLabel } from "../model/tray.ts";
import { committedText } from "../seal/commitment.ts";
import { saveText } from "../ui/save.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { Tests } from "./attribute-tables.tsx";
import { isLong } from "./figures.tsx";
import { furtherLines, kindsLines } from "./formula-lines.ts";
import type { Opened } from "./opened-study.ts";
import { Reshuffle } from "./reshuffle.tsx";

/** What it takes to compute and check everything again: formula, versions, seed, and the key with its commitment. */
export function Details({ study, said }: { study: Opened; said: Description }) {
  const { record, result } = study;
  const words = reader.details;
  return (
    <section class="details">
      <h2>{words.heading}</h2>
      <Formula result={result} said={said} />
      {result.family === "scale" && <Reshuffle result={result} said={said} />}
      <details data-print>
        <summary>{words.software}</summary>
        <dl class="facts">
          <Fact label={words.computed} value={words.version(result.app)} />
          <Fact label={words.locked} value={words.version(record.app)} />
          <Fact label={words.study} value={record.study} exact />
          <Fact label={words.seed} value={record.opened.key.seed} exact />
        </dl>
      </details>
      <details data-print>
        <summary>{words.key}</summary>
        <dl class="facts">
          <Fact label={words.commitment} value={record.commitment} exact />
          <Fact label={words.salt} value={record.opened.salt} exact />
        </dl>
        <p class="fine">{words.checkByHand}</p>
        <button
          type="button"
          class="screen-only"
          onClick={() =>
            saveText(reader.exports.fileName(record.plan.title, "key.txt"), "text/plain", committedText(record.opened))
          }
        >
          {words.saveKeyText}
        </button>
        {isLong(record.opened.key.trays.length) ? (
          <p class="fine">{reader.large.keyInFile(record.opened.key.trays.length)}</p>
        ) : (
          <KeyTable record={record} />
        )}
      </details>
    </section>
  );
}

/** The formulas of a result, with its own numbers in them. */
export function Formula({ result, said }: { result: Result; said: Description }) {
  return (
    <details data-print>
      <summary>{reader.details.formula}</summary>
      {formulaOf(result).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {result.family === "scale" &&
        result.attributes.map((attribute, at) => {
          const text = said.attributes[at];
          return text && <Tests key={text.heading} result={result} attribute={attribute} text={text} />;
        })}
    </details>
  );
}

function formulaOf(result: Result): string[] {
  const { formulaText } = reader.details;
  switch (result.family) {
    case "choice":
      return [...choiceFormula(result), ...furtherLines(result)];
    case "pair":
      return [
        ...(result.byPerson
          ? formulaText.byPerson()
          : formulaText.preference({
              judgments: result.judgments,
              more: Math.max(result.tested.first, result.tested.second),
              alpha: result.alpha,
              needed: result.criticalNumber,
            })),
        ...furtherLines(result),
      ];
    case "kinds":
      return kindsLines(result);
    case "rank":
      return formulaText.rank({
        exact: result.friedman?.exact ?? false,
        shared: result.sharing > 0,
        page: result.page,
        products: result.products.length,
      });
    case "portions":
      return report.portions.formula(
        result.masses.unit === "panelist",
        result.masses.differences.length > 1,
        result.masses.differences[0]?.percentagePoints.confidence ?? result.confidence,
      );
    case "scale":
      return [
        ...(result.attributes.some(({ form }) => form.kind !== "just-right") ? modelLines(result) : []),
        ...report.steps.formula(result.attributes.map(({ form }) => form.kind)),
      ];
  }
}

/** The model behind means and comparisons. */
const modelLines = (result: ScaleResult): string[] =>
  reader.details.formulaText.scale({
    repeats: result.attributes.some(({ repeats }) => repeats > 1),
    complete: result.attributes.every((attribute) => attribute.blocks === null || !unevenOf(attribute).some),
    unequal: result.attributes.some((attribute) => attribute.blocks !== null && unevenOf(attribute).repeats),
    perTray: result.perTray,
    confidence: result.confidence,
    curves: result.curves.length > 0,
    mixed: result.attributes.some(({ leads }) => leads === "mixed"),
    place: result.attributes.some(({ mixed }) => mixed?.terms.some(({ term }) => term === "position")),
    adjustments: [...new Set(result.attributes.map(({ adjustment }) => adjustment))],
  });

function choiceFormula(result: ChoiceResult): string[] {
  const { formulaText } = reader.details;
  const facts = {
    judgments: result.judgments,
    correct: result.correct,
    choices: Math.round(1 / result.guessProbability),
    alpha: result.alpha,
    needed: result.criticalNumber,
    bounds: result.correctShare.kind !== "none",
    looks: result.stopping !== null,
    family: result.pValueAdjusted !== null,
  };
  if (!result.limit) return formulaText.difference(facts);
  const { discriminatorShare, correctShare, beta } = result.limit;
  if (result.people > 1 && result.people < result.judgments) {
    return formulaText.similarityRepeats({ choices: facts.choices, limit: discriminatorShare, beta });
  }
  return formulaText.similarity({ ...facts, limit: discriminatorShare, right: correctShare, beta });
}

export function Fact({ label, value, exact = false }: { label: string; value: string; exact?: boolean }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd class={exact ? "exact" : undefined}>{value}</dd>
    </div>
  );
}

function KeyTable({ record: { opened, plan } }: { record: Opened["record"] }) {
  const words = reader.details;
  const names = new Map(plan.products.map(({ id, name }) => [id, name]));
  return (
    <table class="key">
      <thead>
        <tr>
          <th scope="col" class="number">
            {words.tray}
          </th>
          <th scope="col">{words.order}</th>
          <th scope="col">{words.samples}</th>
        </tr>
      </thead>
      <tbody>
        {opened.key.trays.map(({ tray, order, samples }) => (
          <tr key={tray}>
            <th scope="row" class="number">
              {trayLabel(tray)}
            </th>
            <td>{order}</td>
            <td>
              {samples.map(({ code, product, batch }) => (
                <span key={code} class="sample">
                  <b>{code}</b> {words.sample(names.get(product) ?? product, batch)}
                </span>
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
