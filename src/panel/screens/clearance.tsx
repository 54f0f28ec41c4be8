import type { ComponentChildren } from "preact";
import type { Allergen } from "../../model/allergen.ts";
import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { useDesk } from "../desk.ts";
import type { Tray } from "../flow.ts";
import { Frame } from "../frame.tsx";

type Props = {
  tray: Tray;
  packet: BlindPacket;
  problem: ProblemData | null;
  clear: () => void;
  refuse: () => void;
  otherTray: () => void;
  stop: () => void;
};

/** Before anything else: what this is, what is kept of it, and whether somebody takes part. The text is the packet's. */
export function Consent(props: Props) {
  const { title, agree, decline } = useDesk().words.consent;
  return (
    <Asked {...props} title={title} yes={agree} no={decline}>
      <dl>
        {props.packet.consent?.lines.map(({ term, text }) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </Asked>
  );
}

/** Allergens and cautions: one list over everything served, the same for every tray. No reason is asked for. */
export function Clearance(props: Props) {
  const { clearance } = useDesk().words;
  const { allergens, cautions } = props.packet;
  const { contains, mayContain, other } = allergens;
  const named = (list: Allergen[]) => list.map((allergen) => clearance.allergens[allergen]);
  return (
    <Asked {...props} title={clearance.title} yes={clearance.clear} no={clearance.concerned}>
      <dl>
        <Listed term={clearance.contains} items={named(contains)} />
        <Listed term={clearance.mayContain} items={named(mayContain)} />
        <Listed term={clearance.other} items={other} />
        {contains.length + mayContain.length + other.length === 0 ? <p>{clearance.nothing}</p> : null}
        {cautions.length > 0 ? (
          <div>
            <dt>{clearance.cautions}</dt>
            <dd class="cautions">
              {cautions.map((caution) => (
                <p key={caution}>{clearance.caution[caution]}</p>
              ))}
            </dd>
          </div>
        ) : null}
      </dl>
      <p class="fine">
        {clearance.privacy} {clearance.disclaimer}
      </p>
    </Asked>
  );
}

/** Something to read, and two ways on. */
function Asked(props: Props & { title: string; yes: string; no: string; children: ComponentChildren }) {
  const { tray, problem, clear, refuse, otherTray, stop, title, yes, no, children } = props;
  return (
    <Frame
      title={title}
      tray={tray.tray}
      aside={
        <button type="button" class="quiet" onClick={otherTray}>
          {useDesk().words.clearance.otherTray}
        </button>
      }
      stop={stop}
      problem={problem}
      left={
        <button type="button" onClick={refuse}>
          {no}
        </button>
      }
      right={
        <button type="button" class="next" onClick={clear}>
          {yes}
        </button>
      }
    >
      <div class="reading">{children}</div>
    </Frame>
  );
}

function Listed({ term, items }: { term: string; items: string[] }) {
  if (items.length === 0) return null;
  return (
    <div>
      <dt>{term}</dt>
      <dd>
        <ul class="names">
          {items.map((item) => (
            <li key={item}>{item}</li>
          ))}
        </ul>
      </dd>
    </div>
  );
}
