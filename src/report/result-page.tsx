import { useRef } from "preact/hooks";
import { describe, type Row } from "../analysis/describe.ts";
import type { Attachment } from "../model/event.ts";
import { chanceOfChoice } from "../ui/dot-layout.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { Chance } from "./chance.tsx";
import { Details } from "./details.tsx";
import { Done } from "./done.tsx";
import { Exports } from "./exports.tsx";
import { Frame } from "./furniture.tsx";
import type { Opened } from "./load.ts";
import { Remarks } from "./remarks-part.tsx";
import { usePaper } from "./use-paper.ts";
import { Verify } from "./verify-part.tsx";

type Props = {
  study: Opened;
  /** A lead sees remarks and small groups; a reader does not. */
  lead: boolean;
  app: string;
  now: () => string;
  fetchRemarks: () => Promise<Attachment[]>;
};

/** The result of one opened study, from the question to the proof. Every sentence of it comes from `describe`. */
export function ResultPage({ study, lead, app, now, fetchRemarks }: Props) {
  const { record, result } = study;
  const { title, objective } = record.plan;
  const said = describe(result, report);
  const picture = useRef<HTMLDivElement>(null);
  usePaper({ title, commitment: record.commitment, now });
  return (
    <Frame end={<TopLine test={said.test} record={record} />}>
      {!record.keyMatches && <Stop text={reader.top.mismatch} />}
      {study.missing > 0 && <Stop text={reader.top.missing(study.missing)} />}
      {study.failure !== null && (
        <p class="fine screen-only" role="status">
          {sentenceOf(study.failure)} {reader.problems.heldBefore}
        </p>
      )}
      <p class="fine question">{[title, objective].filter((part) => part.trim() !== "").join(" \u00b7 ")}</p>
      <h1 class="verdict">{said.verdict}</h1>
      <p class="lead-in">{said.size}</p>
      <p class="agreed">{said.agreed}</p>
      {said.meaning !== "" && (
        <aside class="note">
          <p>{said.meaning}</p>
          <p>{said.caution}</p>
        </aside>
      )}
      {result.family === "choice" && said.chance && result.judgments > 0 && (
        <Chance figures={chanceOfChoice(result)} words={said.chance} picture={picture} />
      )}
      <section class="heavy">
        <h2 class="unseen">{reader.sections.numbers}</h2>
        <Numbers rows={said.rows} />
      </section>
      <Sentences heading={reader.sections.notShown} sentences={said.caveats} />
      <Sentences heading={reader.sections.departures} sentences={said.departures} />
      <Done study={study} lead={lead} />
      <Details study={study} />
      <section class="screen-only">
        <h2>{reader.exports.heading}</h2>
        <Exports study={study} app={app} now={now} picture={picture} />
        <Verify study={study} app={app} now={now} />
        {lead && <Remarks trayOf={study.remarkTrays} fetchRemarks={fetchRemarks} />}
      </section>
    </Frame>
  );
}

function TopLine({ test, record }: { test: string; record: Opened["record"] }) {
  const { top } = reader;
  const key = record.keyMatches ? top.matches(record.commitment) : top.differs(record.commitment);
  return <>{[test, top.locked(record.lockedAt), key].join(" \u00b7 ")}</>;
}

function Stop({ text }: { text: string }) {
  return (
    <p class="stop" role="alert">
      <strong>{reader.top.stop}</strong> {text}
    </p>
  );
}

/** Label, number, and what stands behind the number in a column of its own, so that the numbers line up. */
function Numbers({ rows }: { rows: Row[] }) {
  return (
    <table class="numbers">
      <tbody>
        {rows.map(({ id, label, value, behind }) => (
          <tr key={id} class={id === "right" ? "first" : undefined}>
            <th scope="row">{label}</th>
            <td class="number">{value}</td>
            <td class="behind">{behind}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Sentences({ heading, sentences }: { heading: string; sentences: string[] }) {
  return (
    <section>
      <h2>{heading}</h2>
      {sentences.length === 1 ? (
        <p>{sentences[0]}</p>
      ) : (
        <ul class="sentences">
          {sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
