import { useState } from "preact/hooks";
import type { Attachment } from "../model/ballot-event.ts";
import { trayLabel } from "../model/tray.ts";
import { focusSoon } from "../ui/focus.ts";
import { reader } from "../words/en/reader.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { byTray, type TrayRemark } from "./remarks.ts";

type Props = { trayOf: ReadonlyMap<string, number>; fetchRemarks: () => Promise<Attachment[]> };
type Step =
  | { at: "closed" }
  | { at: "fetching" }
  | { at: "open"; remarks: TrayRemark[] }
  | { at: "failed"; why: string };

const ids = { heading: "remarks-heading", show: "remarks-show" };

/** What panelists wrote, for the lead, fetched only when asked for. Shown as text, never printed. */
export function Remarks({ trayOf, fetchRemarks }: Props) {
  const [step, setStep] = useState<Step>({ at: "closed" });
  const words = reader.remarks;

  async function show(): Promise<void> {
    setStep({ at: "fetching" });
    try {
      setStep({ at: "open", remarks: byTray(await fetchRemarks(), trayOf) });
      focusSoon(ids.heading);
    } catch (thrown) {
      setStep({ at: "failed", why: sentenceOf(thrown) });
    }
  }

  const hide = (): void => {
    setStep({ at: "closed" });
    focusSoon(ids.show);
  };

  return (
    <div class="part remarks">
      {step.at === "open" ? (
        <>
          <h3 id={ids.heading} tabIndex={-1}>
            {words.heading}
          </h3>
          {step.remarks.length === 0 && <p>{words.none}</p>}
          <dl class="facts">
            {step.remarks.map(({ tray, text }) => (
              <div key={`${tray} ${text}`}>
                <dt>{words.tray(trayLabel(tray))}</dt>
                <dd>{text}</dd>
              </div>
            ))}
          </dl>
          <button type="button" class="quiet" onClick={hide}>
            {words.hide}
          </button>
        </>
      ) : (
        <button type="button" id={ids.show} onClick={() => step.at !== "fetching" && void show()}>
          {words.show(trayOf.size)}
        </button>
      )}
      <p role="alert" class="problem">
        {step.at === "failed" ? step.why : ""}
      </p>
    </div>
  );
}
