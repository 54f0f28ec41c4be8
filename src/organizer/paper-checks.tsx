import type { Body } from "../model/event.ts";
import type { BlindTray } from "../model/packet.ts";
import { trayLabel } from "../model/tray.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { kitchenPapers } from "../words/en/organizer-kitchen-papers.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { FlowSheet } from "./paper-parts.tsx";
import type { PaperSize } from "./use-print.ts";

const words = kitchenPapers.checks;
type Lock = Body<"study-locked">;

/** For the second person, who is blind: which codes stand on which tray, with a box for each cup. Made of the packet alone. */
export function CheckList({ lock, size }: { lock: Lock; size: PaperSize }) {
  const { packet } = lock;
  const places = Math.max(0, ...packet.trays.map(({ codes }) => codes.length));
  const cups = places + (packet.reference ? 1 : 0);
  return (
    <FlowSheet lock={lock} name={paperNames["check-list"]} size={size}>
      <p class="small-print">{words.how}</p>
      {lock.plan.waves.map((wave, at) => {
        const trays = packet.trays.filter((tray) => tray.wave === at + 1);
        const count = trays.reduce((sum, { codes }) => sum + codes.length + (packet.reference ? 1 : 0), 0);
        return (
          <table key={wave.id} class="by-tray checks">
            <caption>
              {paperWords.wave(at + 1, wave.starts)}: {words.wave(trays.length, count)}
            </caption>
            <thead>
              <tr>
                <th scope="col">{words.tray}</th>
                {packet.reference ? <th scope="col">{words.reference(packet.reference)}</th> : null}
                {Array.from({ length: places }, (_, place) => (
                  <th key={place} scope="col">
                    {words.place(place + 1)}
                  </th>
                ))}
                <th scope="col" class="signed">
                  {words.signed}
                </th>
              </tr>
            </thead>
            <tbody>
              {trays.map((tray) => (
                <CheckRow key={tray.tray} tray={tray} mark={packet.reference} narrow={cups > 4} />
              ))}
            </tbody>
          </table>
        );
      })}
    </FlowSheet>
  );
}

function CheckRow({ tray, mark, narrow }: { tray: BlindTray; mark: string | null; narrow: boolean }) {
  return (
    <tr>
      <th scope="row">
        {trayLabel(tray.tray)}
        {tray.spare ? <span class="small-print"> {paperWords.spare}</span> : null}
      </th>
      {mark ? (
        <td>
          <span class="check">
            <span class="box" aria-hidden="true" />
            <span class="code">{mark}</span>
          </span>
        </td>
      ) : null}
      {tray.codes.map((code) => (
        <td key={code}>
          <span class="check">
            <span class="box" aria-hidden="true" />
            <CodeDigits code={code} />
          </span>
        </td>
      ))}
      <td>
        <span class={narrow ? "box wide-box narrow-box" : "box wide-box"} />
      </td>
    </tr>
  );
}
