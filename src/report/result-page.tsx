import { describe } from "../analysis/describe.ts";
import type { Attachment } from "../model/ballot-event.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { Details } from "./details.tsx";
import { Done } from "./done.tsx";
import { Exports } from "./exports.tsx";
import { Frame } from "./furniture.tsx";
import type { Opened } from "./opened-study.ts";
import { Remarks } from "./remarks-part.tsx";
import { ResultBody } from "./result-body.tsx";
import { usePaper } from "./use-paper.ts";
import { Verify } from "./verify-part.tsx";
import { WithoutTrays } from "./without-part.tsx";

type Props = {
  study: Opened;
  /** A lead sees remarks and small groups; a reader does not. */
  lead: boolean;
  app: string;
  now: () => string;
  fetchRemarks: () => Promise<Attachment[]>;
};

/** The result of one opened study, from the question to the proof. */
export function ResultPage({ study, lead, app, now, fetchRemarks }: Props) {
  const { record, result } = study;
  const { title, objective } = record.plan;
  const said = describe(result, report);
  usePaper({ title, commitment: record.commitment, now });
  return (
    <Frame end={<TopLine test={said.test} record={record} />} lead={lead}>
      {!record.keyMatches && <Stop text={reader.top.mismatch} />}
      {study.missing > 0 && <Stop text={reader.top.missing(study.missing)} />}
      {result.study?.blank && <p class="invented">{reader.top.blank}</p>}
      {result.study?.invented && <p class="invented">{reader.top.invented}</p>}
      {study.failure !== null && (
        <p class="fine screen-only" role="status">
          {sentenceOf(study.failure)} {reader.problems.heldBefore}
        </p>
      )}
      <ResultBody
        result={result}
        said={said}
        lead={lead}
        question={[title, objective].filter((part) => part.trim() !== "").join(" \u00b7 ")}
      >
        <WithoutTrays without={study.without} />
        <Done study={study} lead={lead} />
        <Details study={study} said={said} />
        <section class="screen-only">
          <h2>{reader.exports.heading}</h2>
          <Exports study={study} lead={lead} said={said} app={app} now={now} />
          <Verify study={study} app={app} now={now} />
          {lead && <Remarks trayOf={study.remarkTrays} fetchRemarks={fetchRemarks} />}
        </section>
      </ResultBody>
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
