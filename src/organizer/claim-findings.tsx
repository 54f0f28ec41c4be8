import type { FindingNumbers } from "../analysis/finding.ts";
import type { ClaimState } from "../log/claim.ts";
import { takenOff } from "../log/claim.ts";
import type { Claim } from "../model/claim.ts";
import { organizer } from "../words/en/organizer.ts";
import { claimWords, type Names } from "../words/en/organizer-claims.ts";
import { findingWords as words } from "../words/en/organizer-findings.ts";
import { attachedStudies, namesOf } from "./claim-edit.ts";
import { findingText } from "./claim-finding-text.ts";
import type { ClaimStudy } from "./claim-results.ts";
import { type Cell, type Row, rowsOf, type Standing, standingsOf } from "./claim-rows.ts";
import { studyAddress } from "./route.ts";

type WeighedNumbers = Extract<FindingNumbers, { what: "weighed" }>;
type Props = { claim: Claim; state: ClaimState; studies: readonly ClaimStudy[] | undefined };

/** What is read and printed of a claim: the claim, what the data leave of its explanations, and why, row by row. */
export function ClaimFindings({ claim, state, studies }: Props) {
  const byId = new Map((studies ?? []).map((study) => [study.id, study]));
  const known = attachedStudies(claim).filter((id) => byId.get(id)?.revealed);
  const now = { over: state.current ? [state.current.event] : [], claim, known };
  const rows = rowsOf({ claim, versions: state.versions, now, studies: byId });
  const titles = takenOff(state.versions, now).map(({ study, name }) => {
    const title = byId.get(study)?.plan.title.trim() || organizer.untitled;
    return `${title} (${name})`;
  });
  return (
    <div class="printed">
      {claim.words.trim() === "" ? null : <p class="lead-in">{claim.words}</p>}
      <Expected claim={claim} />
      {claim.measures.length === 0 ? null : (
        <>
          <Summary claim={claim} rows={rows} takenOff={titles} />
          <section>
            <h2>{words.heading}</h2>
            {rows.map((row) => (
              <RowTable key={row.key} row={row} claim={claim} reading={studies === undefined} />
            ))}
          </section>
        </>
      )}
    </div>
  );
}

function Expected({ claim: { heldBy, expected, expectedOn } }: { claim: Claim }) {
  const { expectation } = claimWords;
  if (heldBy.trim() === "" && expected.trim() === "") return null;
  return (
    <p class="fine under">
      {heldBy.trim() ? `${expectation.said(heldBy.trim())} ` : ""}
      {expected.trim() ? `${expectation.expectedOn(expectedOn)} ${expected.trim()}` : ""}
    </p>
  );
}

const nameOf = ({ explanation, at }: Pick<Cell, "explanation" | "at">): string =>
  explanation.name.trim() || claimWords.explanation.unnamed(at);

/** Which explanations the data still allow, in words; and each with what is said for it. */
function Summary({ claim, rows, takenOff }: { claim: Claim; rows: readonly Row[]; takenOff: readonly string[] }) {
  const standings = standingsOf(claim, rows);
  const results = rows.filter(({ finding }) => finding !== null && finding.found !== "no-verdict").length;
  const of = (judgment: Standing["judgment"]) => standings.filter((each) => each.judgment === judgment).map(nameOf);
  const { summary } = words;
  const [allowed, against, untested] = [of("allowed"), of("contradicted"), of("not-tested")];
  return (
    <section class="heavy">
      <h2>{summary.heading}</h2>
      {results === 0 ? (
        <p>{summary.none}</p>
      ) : (
        <>
          <p class="lead-in">
            {allowed.length > 0 ? summary.allowed(allowed) : untested.length === 0 ? summary.noneAllowed : ""}{" "}
            {against.length > 0 ? summary.contradicted(against) : ""}{" "}
            {untested.length > 0 ? summary.untested(untested) : ""}
          </p>
          <p class="fine">{summary.care(results)}</p>
        </>
      )}
      {takenOff.length > 0 ? <p class="note">{summary.takenOff(takenOff)}</p> : null}
      <dl class="standings">
        {standings.map((standing) => (
          <div key={standing.explanation.id}>
            <dt>
              {nameOf(standing)} <span class="fine">{standText(standing)}</span>
            </dt>
            {standing.explanation.words.trim() ? <dd>{standing.explanation.words}</dd> : null}
          </div>
        ))}
      </dl>
    </section>
  );
}

function standText({ judgment, by, results }: Standing): string {
  if (judgment === "contradicted") return words.summary.by(by.map((name) => name || claimWords.measure.unnamed));
  return judgment === "allowed" ? words.summary.tested(results) : words.judgment["not-tested"];
}

/** One thing as one study has it: what was found, and each explanation beside it. */
function RowTable({ row, claim, reading }: { row: Row; claim: Claim; reading: boolean }) {
  const { columns } = words;
  const names = namesOf(claim, { first: claimWords.claim.unnamedFirst, second: claimWords.claim.unnamedSecond });
  return (
    <div class="finding">
      <h3>
        {row.measure.name.trim() || claimWords.measure.unnamed}
        <Source row={row} />
      </h3>
      <p>
        <span class="soft">{words.found}</span> {foundOf(row, names, reading)}
      </p>
      {row.finding?.numbers?.what === "typed" ? <Typed source={row.finding.numbers.finding.source} /> : null}
      {row.finding?.numbers?.what === "weighed" ? <Weighed numbers={row.finding.numbers} /> : null}
      <table class="beside">
        <thead>
          <tr>
            <th scope="col">{columns.explanation}</th>
            <th scope="col">{columns.predicts}</th>
            <th scope="col">{columns.says}</th>
          </tr>
        </thead>
        <tbody>
          {row.cells.map((cell) => (
            <CellRow key={cell.explanation.id} cell={cell} row={row} names={names} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Source({ row: { attachment, study } }: { row: Row }) {
  if (!attachment) return null;
  const title = study ? study.plan.title.trim() || organizer.untitled : claimWords.attached.unknownStudy;
  return <span class="fine"> {study ? <a href={studyAddress(attachment.study)}>{title}</a> : title}</span>;
}

const foundOf = (row: Row, names: Names, reading: boolean): string =>
  row.finding
    ? findingText(row, row.finding, names)
    : reading && row.attachment
      ? words.noResult.reading
      : words.noResult[row.waits ?? "nothing"];

function Typed({ source }: { source: string }) {
  return (
    <p class="fine">
      <strong>{words.typedMark}</strong>
      {source.trim() ? `. ${words.source(source.trim())}` : ""}
    </p>
  );
}

function Weighed({ numbers }: { numbers: WeighedNumbers }) {
  const { steps, batches, design } = numbers;
  return <p class="fine">{words.weighedMark(...steps, ...batches, design)}</p>;
}

function CellRow({ cell, row, names }: { cell: Cell; row: Row; names: Names }) {
  const { prediction, judged, after, stood, counts } = cell;
  const say = (what: typeof prediction): string =>
    claimWords.predictions(what, row.measure.kind, row.measure.about === "interaction", names);
  return (
    <tr>
      <th scope="row">{nameOf(cell)}</th>
      <td>
        {say(prediction)}
        {after ? (
          <span class="fine below">
            <strong>{words.after}.</strong> {stood.length > 0 ? words.stood(stood.map(say)) : words.neverSaid}
          </span>
        ) : null}
      </td>
      <td>
        <span class={judged.judgment === "contradicted" ? "strong" : undefined}>{words.judgment[judged.judgment]}</span>
        <span class="fine below">{words.because[judged.because]}</span>
        {after ? <span class="fine below">{words.stoodJudged(words.judgment[counts])}</span> : null}
      </td>
    </tr>
  );
}
