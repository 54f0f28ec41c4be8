import type { Allergen } from "../../model/allergen.ts";
import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { useDesk } from "../desk.ts";
import type { Tray } from "../flow.ts";
import { Frame } from "../frame.tsx";

export type ClearanceProps = {
  tray: Tray;
  packet: BlindPacket;
  problem: ProblemData | null;
  clear: () => void;
  concerned: () => void;
  otherTray: () => void;
  stop: () => void;
};

/** Allergens and cautions: one list over everything served, the same for every tray. No reason is asked for. */
export function Clearance({ tray, packet, problem, clear, concerned, otherTray, stop }: ClearanceProps) {
  const { words } = useDesk();
  const { clearance } = words;
  const { contains, mayContain, other } = packet.allergens;
  const named = (list: Allergen[]) => list.map((allergen) => clearance.allergens[allergen]);
  return (
    <Frame
      title={clearance.title}
      tray={tray.tray}
      aside={
        <button type="button" class="quiet" onClick={otherTray}>
          {clearance.otherTray}
        </button>
      }
      stop={stop}
      problem={problem}
      left={
        <button type="button" onClick={concerned}>
          {clearance.concerned}
        </button>
      }
      right={
        <button type="button" class="next" onClick={clear}>
          {clearance.clear}
        </button>
      }
    >
      <div class="reading">
        <dl>
          <Listed term={clearance.contains} items={named(contains)} />
          <Listed term={clearance.mayContain} items={named(mayContain)} />
          <Listed term={clearance.other} items={other} />
          {contains.length + mayContain.length + other.length === 0 ? <p>{clearance.nothing}</p> : null}
          {packet.cautions.length > 0 ? (
            <div>
              <dt>{clearance.cautions}</dt>
              <dd class="cautions">
                {packet.cautions.map((caution) => (
                  <p key={caution}>{clearance.caution[caution]}</p>
                ))}
              </dd>
            </div>
          ) : null}
        </dl>
        <p class="fine">
          {clearance.privacy} {clearance.disclaimer}
        </p>
      </div>
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
