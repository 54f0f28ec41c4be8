import type { ComponentChildren } from "preact";
import { isAnswerWord, shapeOf } from "../../model/method.ts";
import { answersOf, type BlindPacket } from "../../model/packet.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { choiceAnswers, choiceQuestions } from "../../words/en/panel-choice.ts";
import { panelPaper } from "../../words/en/panel-paper.ts";
import { pairsOf } from "../choice/pairing.ts";
import { useDesk } from "../desk.ts";
import type { Tray } from "../flow.ts";
import type { Typing } from "./paper-form.tsx";
import { cannotPick, emptyPick, entryOf } from "./paper-reading.ts";

const words = panelPaper.form;

/** The questions of a choice, each with its boxes as they stand on the paper. */
export function PaperChoices(typing: Typing) {
  const { packet } = typing;
  const asked = choiceQuestions(packet.wording, packet.properties, packet.ranking);
  return (
    <>
      {asked.map((ask, at) => (
        <fieldset key={at} class="paper-part">
          <legend>{asked.length > 1 ? `${at + 1}. ${ask}` : ask}</legend>
          {packet.ranking ? <Places {...typing} question={at + 1} /> : <Boxes {...typing} question={at + 1} />}
        </fieldset>
      ))}
    </>
  );
}

type Props = Typing & { question: number };

function Boxes({ packet, tray, form, change, question }: Props) {
  const { question: common } = useDesk().words;
  const { picked, guess } = entryOf(form, question);
  const { guess: mayGuess } = shapeOf(packet.method);
  const pick = (value: string) => ({
    name: `paper-${question}`,
    checked: picked === value,
    choose: () => change(question, { picked: value }),
  });
  return (
    <>
      <div class="ticks">
        {answersOf(packet, tray).map((answer) => (
          <Tick key={answer} {...pick(answer)}>
            <Answer answer={answer} packet={packet} tray={tray} />
          </Tick>
        ))}
      </div>
      <div class="ticks">
        <Tick {...pick(cannotPick)}>{common.cannot}</Tick>
        <Tick {...pick(emptyPick)}>{words.leftEmpty}</Tick>
      </div>
      {mayGuess ? (
        <label class="check">
          <input
            type="checkbox"
            checked={guess}
            onChange={(event) => change(question, { guess: event.currentTarget.checked })}
          />
          <span>{common.guess}</span>
        </label>
      ) : null}
    </>
  );
}

/** Each code with the place that was written into its box. */
function Places({ tray, form, change, wrongOf, question }: Props) {
  const { question: common } = useDesk().words;
  const { places, picked } = entryOf(form, question);
  const wrong = wrongOf(question);
  return (
    <>
      <p class="fine">{words.places}</p>
      <div class="ticks">
        {tray.codes.map((code) => (
          <label key={code} class="paper-place">
            <CodeDigits code={code} />
            <select
              aria-label={words.order(code)}
              value={places[code] ?? ""}
              onChange={(event) =>
                change(question, { picked: "", places: { ...places, [code]: event.currentTarget.value } })
              }
            >
              <option value="">{words.noPlace}</option>
              {tray.codes.map((one, at) => (
                <option key={one} value={String(at + 1)}>
                  {at + 1}
                </option>
              ))}
            </select>
          </label>
        ))}
      </div>
      <label class="check">
        <input
          type="checkbox"
          checked={picked === cannotPick}
          onChange={(event) => change(question, { picked: event.currentTarget.checked ? cannotPick : "", places: {} })}
        />
        <span>{common.cannot}</span>
      </label>
      {wrong ? <p class="wrong">{wrong}</p> : null}
    </>
  );
}

/** One box of several, of which one is ticked. */
export function Tick(props: { name: string; checked: boolean; choose: () => void; children: ComponentChildren }) {
  return (
    <label class="check">
      <input type="radio" name={props.name} checked={props.checked} onChange={props.choose} />
      <span>{props.children}</span>
    </label>
  );
}

function Answer({ answer, packet, tray }: { answer: string; packet: BlindPacket; tray: Tray }) {
  if (isAnswerWord(answer)) return <>{choiceAnswers[answer]}</>;
  if (shapeOf(packet.method).answer !== "partner") return <CodeDigits code={answer} />;
  return (
    <>
      {pairsOf(tray.codes, answer).map(([one, other], at) => (
        <span key={one}>
          {at > 0 ? ", " : ""}
          <CodeDigits code={one} /> {words.with} <CodeDigits code={other} />
        </span>
      ))}
    </>
  );
}
