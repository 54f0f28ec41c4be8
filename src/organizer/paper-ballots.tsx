import type { AskedAttribute } from "../model/attribute.ts";
import type { BlindPacket } from "../model/packet.ts";
import { drawsLine } from "../model/steps.ts";
import { trayLabel } from "../model/tray.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { allergenNames } from "../words/en/allergens.ts";
import { listed } from "../words/en/organizer.ts";
import { paperWords } from "../words/en/organizer-papers.ts";
import { panel } from "../words/en/panel.ts";
import { panelChew } from "../words/en/panel-chew.ts";
import { panelLine } from "../words/en/panel-line.ts";
import { panelRules } from "../words/en/panel-rules.ts";
import { asksAlongChew, type BallotLeaf, ballotLeaves, isWide, type PaperLine } from "./ballot-pages.ts";
import { lineQuestion } from "./ballot-words.ts";
import { ChewQuestions } from "./paper-chew.tsx";
import { ChoiceQuestions } from "./paper-choice.tsx";
import { MeasureBar } from "./paper-parts.tsx";
import type { PaperSize } from "./use-print.ts";

const words = paperWords.ballot;

/**
 * Ballots on paper for when the tablets fail: the words, codes and order of the tablet. Made from the packet alone, so
 * that no product, no title and nothing of the key can stand on them.
 */
export function BackupBallots({ packet, size }: { packet: BlindPacket; size: PaperSize }) {
  const print = smallPrint(packet);
  const leaves = ballotLeaves(
    packet,
    size,
    print.map((lines) => lines.join(" ").length),
  );
  const wide = isWide(packet);
  const perSheet = wide ? 1 : 2;
  const sheets = Array.from({ length: Math.ceil(leaves.length / perSheet) }, (_, at) =>
    leaves.slice(at * perSheet, (at + 1) * perSheet),
  );
  return (
    <>
      {sheets.map((pair) => (
        <article key={keyOf(pair[0])} class={`paper ballots ${wide ? "wide " : ""}${size}`}>
          {pair.map((leaf) => (
            <Leaf key={keyOf(leaf)} packet={packet} leaf={leaf} print={leaf.at === 1 ? print : []} />
          ))}
        </article>
      ))}
    </>
  );
}

const keyOf = (leaf: BallotLeaf | undefined): string => `${leaf?.tray.tray} ${leaf?.at}`;

function Leaf({ packet, leaf, print }: { packet: BlindPacket; leaf: BallotLeaf; print: string[][] }) {
  const label = trayLabel(leaf.tray.tray);
  return (
    <section class="leaf">
      <p class="leaf-head">
        <strong class="leaf-tray">{words.tray(label)}</strong>
        <span>{leaf.tray.spare ? paperWords.spare : ""}</span>
        <span>{leaf.of > 1 ? words.part(leaf.at, leaf.of) : ""}</span>
      </p>
      {print.length > 0 ? (
        <>
          <div class="leaf-print">
            {print.map((lines) => (
              <p key={lines[0]}>{lines.join(" ")}</p>
            ))}
          </div>
          <p class="leaf-clear">
            {packet.consent ? (
              <>
                <span class="box" aria-hidden="true" /> {words.takesPart}{" "}
              </>
            ) : null}
            <span class="box" aria-hidden="true" /> {panel.clearance.clear}
          </p>
        </>
      ) : null}
      {packet.line ? (
        <div class="leaf-body lines">
          <p class="leaf-how">{leaf.lines.length > 0 ? howOf(packet.line.attributes) : words.how.next}</p>
          {leaf.lines.map((line) => (
            <LineQuestion key={`${line.code} ${line.attribute.id}`} line={line} packet={packet} />
          ))}
        </div>
      ) : packet.chew ? (
        <div class="leaf-body">
          <ChewQuestions codes={leaf.tray.codes} seconds={packet.chew.seconds} />
        </div>
      ) : (
        <div class="leaf-body">
          <ChoiceQuestions packet={packet} codes={leaf.tray.codes} questions={leaf.questions} />
        </div>
      )}
      <p class="leaf-foot">
        <MeasureBar />
        <span class="leaf-signs">
          <span>
            {packet.line?.lengthMm ? `${words.measures(packet.line.lengthMm)} \u00b7 ` : ""}
            {paperWords.seal(packet.commitment)}
          </span>
          <span>
            {words.typed} <span class="leaf-sign" /> {words.checked} <span class="leaf-sign" />
          </span>
        </span>
      </p>
    </section>
  );
}

/** What to do on paper, where the tablet would take a touch. */
function howOf(attributes: readonly AskedAttribute[]): string {
  const steps = attributes.some(({ form }) => form.kind !== "line");
  const how = drawsLine(attributes) ? (steps ? words.how.both : words.how.line) : words.how.steps;
  return asksAlongChew(attributes) ? `${how} ${words.how.chew}` : how;
}

/** One question with its bare line, as long as the tablet's, or with its steps. */
function LineQuestion({ line: { code, attribute }, packet }: { line: PaperLine; packet: BlindPacket }) {
  return (
    <div class="leaf-line">
      <p class="leaf-ask">
        <span>
          {lineQuestion(attribute, code, packet.swallow).map((part) =>
            part === code ? <CodeDigits key={code} code={code} /> : part,
          )}
        </span>
        <span class="leaf-cannot">
          <span class="box" aria-hidden="true" /> {panelLine.mark.cannot}
        </span>
      </p>
      {attribute.form.kind === "line" ? (
        <div class="leaf-scale" style={{ width: `${packet.line?.lengthMm ?? 0}mm` }}>
          <span class="paper-line" aria-hidden="true" />
          <span>{attribute.lowAnchor}</span>
          <span>{attribute.highAnchor}</span>
        </div>
      ) : (
        <ol class="leaf-steps" style={{ "--steps": attribute.form.labels.length }}>
          {attribute.form.labels.map((label, at) => (
            <li key={at}>
              <span class="box" aria-hidden="true" /> <span>{label}</span>
            </li>
          ))}
        </ol>
      )}
    </div>
  );
}

/** What stands above the first question, in paragraphs: what is in it, cautions, how to taste and what words mean. */
function smallPrint(packet: BlindPacket): string[][] {
  const rules = panelRules;
  const { clearance } = panel;
  const { line } = packet;
  const attributes = line?.attributes ?? [];
  if (packet.chew) {
    const how = panelChew.rules(packet.chew, packet.pauseSeconds, true);
    return [allergens(packet), packet.cautions.map((caution) => clearance.caution[caution]), how].filter(
      (lines) => lines.length > 0,
    );
  }
  const how = [
    rules.alone,
    rules.rinse(packet.cleanser),
    ...(packet.warmUp ? [packet.reference ? rules.warmUpUnmarked : rules.warmUp] : []),
    line ? rules.orderOnLine : packet.reference ? rules.orderAfter[packet.reference] : rules.order,
    rules.swallow[packet.swallow],
    words.pause(packet.pauseSeconds),
    packet.retaste ? (line ? rules.retasteOnLine : rules.retaste) : rules.noRetaste,
    rules.stop,
    ...new Set(
      attributes
        .filter(({ definition }) => definition.trim() !== "")
        .map(({ name, adjective, definition }) => words.meaning(adjective.trim() || name, sentence(definition))),
    ),
    ...packet.properties.map(({ comparative, definition }) => words.meaning(comparative, sentence(definition))),
    ...(packet.ranking && packet.ranking.definition.trim() !== ""
      ? [words.meaningOfEnds(packet.ranking.least, packet.ranking.most, sentence(packet.ranking.definition))]
      : []),
    ...(attributes.some(({ moment }) => moment.at === "after") ? [words.clock] : []),
    ...(attributes.some(({ moment }) => moment.at === "chews") ? [words.chews] : []),
  ];
  return [allergens(packet), packet.cautions.map((caution) => clearance.caution[caution]), how].filter(
    (lines) => lines.length > 0,
  );
}

function allergens({ allergens: { contains, mayContain, other } }: BlindPacket): string[] {
  const has = [...contains.map((allergen) => allergenNames[allergen]), ...other];
  const may = mayContain.map((allergen) => allergenNames[allergen]);
  return [
    ...(has.length + may.length === 0 ? [paperWords.card.nothing] : []),
    ...(has.length > 0 ? [`${words.contains} ${listed(has)}.`] : []),
    ...(may.length > 0 ? [`${words.mayContain} ${listed(may)}.`] : []),
    words.concerned,
  ];
}

const sentence = (typed: string): string => (/[.?!]$/.test(typed.trim()) ? typed.trim() : `${typed.trim()}.`);
