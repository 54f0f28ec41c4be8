import { useLayoutEffect, useState } from "preact/hooks";
import { focusSoon } from "../ui/focus.ts";
import { saveText } from "../ui/save.ts";
import { reader } from "../words/en/reader.ts";
import { Fact, Formula } from "./details.tsx";
import { ElsewhereForm, type Found } from "./elsewhere-form.tsx";
import { nothingTyped, type Typed } from "./elsewhere-typed.ts";
import { PrintButton, resultText } from "./exports.tsx";
import { allFigures } from "./figures.tsx";
import { Frame } from "./furniture.tsx";
import { PictureFiles } from "./picture-files.tsx";
import { Reshuffle } from "./reshuffle.tsx";
import { ResultBody } from "./result-body.tsx";
import { usePaper } from "./use-paper.ts";

type Props = { app: string; now: () => string };
const words = reader.elsewhere;

/** Answers that were collected elsewhere: a file is read and computed here, and the result shown without a study. */
export function Elsewhere({ app, now }: Props) {
  const [typed, setTyped] = useState<Typed>(nothingTyped);
  const [found, setFound] = useState<Found | null>(null);
  if (found) return <FoundPage found={found} app={app} now={now} again={() => setFound(null)} />;
  return (
    <Frame end={<a href="./">{reader.list.all}</a>}>
      <h1>{words.heading}</h1>
      <p class="room">
        {words.lead} {words.local}
      </p>
      <ElsewhereForm typed={typed} setTyped={setTyped} app={app} onFound={setFound} />
    </Frame>
  );
}

const verdictId = "verdict";

function FoundPage({ found, app, now, again }: Props & { found: Found; again: () => void }) {
  const { result, said, name, fingerprint, rows, extraColumns } = found;
  const title = name.replace(/\.[^.]+$/, "");
  usePaper({ title: name, commitment: null, now });
  useLayoutEffect(() => focusSoon(verdictId), []);
  return (
    <Frame end={words.top(said.test, name)}>
      <p class="screen-only">
        <button type="button" class="quiet" onClick={again}>
          {words.again}
        </button>
      </p>
      {extraColumns.length > 0 && (
        <p class="fine" role="status">
          {words.extra(extraColumns)}
        </p>
      )}
      <ResultBody result={result} said={said} question={words.origin(name, rows)} verdictId={verdictId}>
        <section class="details">
          <h2>{reader.details.heading}</h2>
          <Formula result={result} said={said} />
          {result.family === "scale" && <Reshuffle result={result} said={said} />}
          <details data-print>
            <summary>{words.source}</summary>
            <dl class="facts">
              <Fact label={words.source} value={name} />
              <Fact label={words.rows} value={String(rows)} />
              <Fact label={words.fingerprint} value={fingerprint} exact />
              <Fact label={reader.details.computed} value={reader.details.version(result.app)} />
            </dl>
          </details>
        </section>
        <section class="screen-only">
          <h2>{words.files}</h2>
          <div class="buttons">
            <PrintButton />
            <button
              type="button"
              onClick={() =>
                saveText(reader.exports.fileName(title, "result.json"), "application/json", resultText(result))
              }
            >
              {reader.exports.json}
            </button>
          </div>
          <PictureFiles figures={allFigures(result, said, true)} result={result} said={said} title={title} app={app} />
        </section>
      </ResultBody>
    </Frame>
  );
}
