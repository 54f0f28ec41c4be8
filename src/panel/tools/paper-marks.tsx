import { CodeDigits } from "../../ui/code-digits.tsx";
import { panelLine } from "../../words/en/panel-line.ts";
import { panelPaper } from "../../words/en/panel-paper.ts";
import { Tick } from "./paper-choices.tsx";
import { Millimeters, type Typing } from "./paper-form.tsx";
import { type Asked, askedOf, emptyPick, entryOf, type Reason, reasons } from "./paper-reading.ts";

const words = panelPaper.form;

/** The questions of a scale, sample by sample, with the stroke in millimeters or the step that was ticked. */
export function PaperMarks(typing: Typing) {
  const { packet, tray } = typing;
  const asked = askedOf(packet, tray);
  return (
    <>
      {tray.codes.map((code) => (
        <fieldset key={code} class="paper-part">
          <legend>
            {words.sample} <CodeDigits code={code} />
          </legend>
          {asked
            .filter((one) => one.code === code)
            .map((one) => (
              <Mark key={one.question} {...typing} asked={one} />
            ))}
        </fieldset>
      ))}
    </>
  );
}

function Mark({ packet, form, change, wrongOf, asked: { question, code, attribute } }: Typing & { asked: Asked }) {
  const { mm, picked, why } = entryOf(form, question);
  const { form: scale } = attribute;
  const ask = panelLine.mark.ask(attribute, code, packet.swallow).join("");
  const wrong = wrongOf(question);
  return (
    <div class="paper-mark">
      <p id={`ask-${question}`}>{ask}</p>
      {scale.kind === "line" ? (
        <Millimeters label={`${ask} ${words.stroke}`} value={mm} write={(typed) => change(question, { mm: typed })} />
      ) : (
        <div class="ticks" role="radiogroup" aria-labelledby={`ask-${question}`}>
          {scale.labels.map((label, at) => (
            <Tick
              key={at}
              name={`paper-${question}`}
              checked={picked === String(at + 1)}
              choose={() => change(question, { picked: String(at + 1) })}
            >
              {`${at + 1} ${label}`.trim()}
            </Tick>
          ))}
          <Tick
            name={`paper-${question}`}
            checked={picked === emptyPick}
            choose={() => change(question, { picked: emptyPick })}
          >
            {words.leftEmpty}
          </Tick>
        </div>
      )}
      <Cannot why={why} set={(reason) => change(question, { why: reason })} />
      {wrong ? <p class="wrong">{wrong}</p> : null}
    </div>
  );
}

/** The paper has one box and no reasons; one that somebody wrote beside it can be named. */
function Cannot({ why, set }: { why: Reason | null; set: (why: Reason | null) => void }) {
  return (
    <div class="paper-cannot">
      <label class="check">
        <input
          type="checkbox"
          checked={why !== null}
          onChange={(event) => set(event.currentTarget.checked ? "other" : null)}
        />
        <span>{panelLine.mark.cannot}</span>
      </label>
      {why === null ? null : (
        <select
          aria-label={words.reason}
          value={why}
          onChange={(event) => set(reasons.find((reason) => reason === event.currentTarget.value) ?? "other")}
        >
          {reasons.map((reason) => (
            <option key={reason} value={reason}>
              {panelLine.noMark.reasons[reason]}
            </option>
          ))}
        </select>
      )}
    </div>
  );
}
