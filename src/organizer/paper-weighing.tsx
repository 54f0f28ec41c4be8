import type { Body } from "../model/event.ts";
import { trayLabel } from "../model/tray.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { FlowSheet } from "./paper-parts.tsx";
import type { PaperSize } from "./use-print.ts";

const words = paperWords.weighing;

/** For whoever weighs and is blind: one line a cup, by tray and code. Made of the packet; of the plan only waves and balance. */
export function WeighingSheet({ lock, size }: { lock: Body<"study-locked">; size: PaperSize }) {
  const { packet, plan } = lock;
  const { weighWithinSeconds, balanceStep } = plan.chew;
  const rinse = packet.chew?.rinseGrams ?? null;
  const columns = [words.empty, words.portion, words.after, ...(rinse === null ? [] : [words.water]), words.time];
  return (
    <FlowSheet lock={lock} name={paperNames["weighing-sheet"]} size={size}>
      <p class="small-print">
        {words.how(weighWithinSeconds, balanceStep)} {rinse === null ? "" : words.rinse(rinse)}
      </p>
      {plan.waves.map((wave, at) => (
        <table key={wave.id} class="by-tray checks">
          <caption>{paperWords.wave(at + 1, wave.starts)}</caption>
          <thead>
            <tr>
              <th scope="col">{words.tray}</th>
              <th scope="col">{words.code}</th>
              {columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {packet.trays
              .filter((tray) => tray.wave === at + 1)
              .flatMap(({ tray, spare, codes }) =>
                codes.map((code) => (
                  <tr key={`${tray} ${code}`}>
                    <th scope="row">
                      {trayLabel(tray)}
                      {spare ? <span class="small-print"> {paperWords.spare}</span> : null}
                    </th>
                    <td>
                      <CodeDigits code={code} />
                    </td>
                    {columns.map((column) => (
                      <td key={column} />
                    ))}
                  </tr>
                )),
              )}
          </tbody>
        </table>
      ))}
    </FlowSheet>
  );
}
