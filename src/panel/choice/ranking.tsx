import type { BlindPacket } from "../../model/packet.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { panelChoice } from "../../words/en/panel-choice.ts";
import type { Question } from "../flow.ts";
import { columnsFor } from "../screens/tasting.tsx";
import type { ChoiceActs } from "./choice-screen.tsx";
import { laidDown, orderOf, placed } from "./ordering.ts";
import { roam, spoken } from "./roam.ts";

type Props = { step: Question; packet: BlindPacket; pick: ChoiceActs["pick"] };

const words = panelChoice.ranking;

/** Samples put in order: touched one after the other, they take the places below from least to most. */
export function Ranking({ step, packet: { ranking }, pick }: Props) {
  const { codes } = step.tray;
  const order = orderOf(step);
  const go = (next: readonly string[]): void => {
    const { picked, held } = laidDown(codes, next);
    pick(picked, held);
  };
  return (
    <>
      <fieldset
        class="three ranked"
        style={{ "--columns": codes.length, "--few": columnsFor(codes.length) }}
        aria-label={panelChoice.samples}
        onKeyDown={roam}
      >
        {codes.map((code) => (
          <Sample key={code} code={code} place={order.indexOf(code)} touch={() => go(placed(order, code))} />
        ))}
      </fieldset>
      <div class="order" style={{ "--places": codes.length }}>
        <p class="least">{ranking?.least}</p>
        <ol aria-label={words.order}>
          {codes.map((code, place) => (
            <Place key={code} place={place} code={order[place]} next={place === order.length} />
          ))}
        </ol>
        <p class="most">{ranking?.most}</p>
        <div class="mend">
          <Mend label={words.undo} idle={order.length === 0} press={() => go(order.slice(0, -1))} />
          <Mend label={words.clear} idle={order.length === 0} press={() => go([])} />
        </div>
      </div>
      <p class="unseen" aria-live="polite">
        {said(codes, order)}
      </p>
    </>
  );
}

type SampleProps = { code: string; place: number; touch: () => void };

function Sample({ code, place, touch }: SampleProps) {
  const chosen = place >= 0;
  return (
    <button type="button" class={chosen ? "field chosen" : "field"} aria-pressed={chosen} onClick={touch}>
      <CodeDigits code={code} />
      <small>{chosen ? words.places[place] : ""}</small>
    </button>
  );
}

/** One place of the order; at the same spot and of the same size while nothing has it. */
function Place({ place, code, next }: { place: number; code: string | undefined; next: boolean }) {
  return (
    <li class={next ? "place next-place" : "place"}>
      <small>{words.places[place]}</small>
      {code === undefined ? <span class="unseen">{words.free}</span> : <CodeDigits code={code} />}
    </li>
  );
}

/** A way back. It keeps the focus when there is nothing left to take back. */
function Mend({ label, idle, press }: { label: string; idle: boolean; press: () => void }) {
  return (
    <button type="button" aria-disabled={idle} onClick={() => idle || press()}>
      {label}
    </button>
  );
}

function said(codes: readonly string[], order: readonly string[]): string {
  const last = order.at(-1);
  if (last === undefined) return words.none;
  if (order.length === codes.length) return words.complete(order.map(spoken));
  return words.stands(spoken(last), words.places[order.length - 1] ?? "", codes.length - order.length);
}
