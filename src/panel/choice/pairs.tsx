import type { BlindPacket } from "../../model/packet.ts";
import { CodeDigits } from "../../ui/code-digits.tsx";
import { panelChoice } from "../../words/en/panel-choice.ts";
import type { Question } from "../flow.ts";
import type { ChoiceActs } from "./choice-screen.tsx";
import { type Pair, type Pairing, pairsOf, partnerOf, swapped, touched } from "./pairing.ts";
import { roam, spoken } from "./roam.ts";

type Props = { step: Question; packet: BlindPacket; pick: ChoiceActs["pick"] };

const words = panelChoice.pairs;

/** Four samples put in two pairs: two are touched, one after the other, and the other two are the second pair. */
export function Pairs({ step, pick }: Props) {
  const { codes } = step.tray;
  const now: Pairing = { picked: step.picked, held: step.held };
  const go = ({ picked, held }: Pairing): void => pick(picked, held);
  const pairs = now.picked === null ? null : pairsOf(codes, now.picked);
  return (
    <>
      <fieldset
        class="three four"
        style={{ "--columns": codes.length }}
        aria-label={panelChoice.samples}
        onKeyDown={roam}
      >
        {codes.map((code) => (
          <Sample
            key={code}
            code={code}
            held={now.held === code}
            partner={partnerOf(codes, now, code)}
            touch={() => go(touched(codes, now, code))}
          />
        ))}
      </fieldset>
      <div class="pairs">
        <Bracket pair={pairs?.[0]} name={words.first} />
        <Bracket pair={pairs?.[1]} name={words.second} />
        <button type="button" aria-disabled={pairs === null} onClick={() => pairs && go(swapped(codes, now))}>
          {words.swap}
        </button>
      </div>
      <p class="unseen" aria-live="polite">
        {said(pairs, now.held)}
      </p>
    </>
  );
}

type SampleProps = { code: string; held: boolean; partner: string | undefined; touch: () => void };

function Sample({ code, held, partner, touch }: SampleProps) {
  return (
    <button type="button" class={held ? "field chosen" : "field"} aria-pressed={held} onClick={touch}>
      <CodeDigits code={code} />
      <small aria-hidden="true">{held ? words.held : partner ? words.goesWith(partner) : ""}</small>
      {partner ? <span class="unseen">{words.goesWith(spoken(partner))}</span> : null}
    </button>
  );
}

/** Two codes under one bracket; empty until there are pairs, at the same place and size. */
function Bracket({ pair, name }: { pair: Pair | undefined; name: string }) {
  return (
    <div class="pair" aria-hidden="true">
      {pair ? pair.map((code) => <CodeDigits key={code} code={code} />) : <small>{name}</small>}
    </div>
  );
}

function said(pairs: readonly [Pair, Pair] | null, held: string | null): string {
  if (pairs) return words.together(pairs[0].map(spoken), pairs[1].map(spoken));
  return held === null ? words.none : words.waits(spoken(held));
}
