import { writeStudyFile } from "../archive/study-file.ts";
import { knownTexts, pulledState } from "../device/pull.ts";
import type { StudyState } from "../log/fold.ts";
import { appVersion } from "../ui/app-version.ts";
import { saveText } from "../ui/save.ts";
import { blankWords } from "../words/en/organizer-blank.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { massesWords } from "../words/en/organizer-masses.ts";
import { weighWords } from "../words/en/organizer-weigh.ts";
import { type Lead, useLead } from "./app-context.ts";
import { blankStudy, copyStudy } from "./begin-study.ts";
import { contestedTrays, lateBallots, voidable } from "./day.ts";
import { LookStep } from "./look-page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { papersAddress, reportAddress, stepAddress } from "./route.ts";
import { useDoing } from "./step-parts.tsx";
import { planOf } from "./study-stage.ts";

const words = dayWords.actions;

/** What can be done at this stage: the next step first, rulings only where there is something to rule on. */
export function DayActions({ id, state }: { id: string; state: StudyState }) {
  const lead = useLead();
  const doing = useDoing();
  const contested = contestedTrays(state).length;
  const late = lateBallots(state).length;
  const sealed = !state.reveal;
  return (
    <nav class="actions no-print" aria-label={words.heading}>
      {state.reveal ? (
        <a class="button next" href={reportAddress(id)}>
          {words.report}
        </a>
      ) : null}
      {sealed && contested > 0 ? (
        <a class="button next" href={stepAddress(id, "settle")}>
          {words.settle(contested)}
        </a>
      ) : null}
      {sealed && late > 0 ? (
        <a class="button" href={stepAddress(id, "admit")}>
          {words.admit(late)}
        </a>
      ) : null}
      {state.close && sealed ? (
        <a class={contested > 0 ? "button" : "button next"} href={stepAddress(id, "open")}>
          {words.open}
        </a>
      ) : null}
      {sealed && state.lock?.body.packet.chew ? (
        <a class="button" href={stepAddress(id, "weigh")}>
          {weighWords.toWeigh}
        </a>
      ) : null}
      <LookStep id={id} state={state} />
      {state.close ? null : (
        <a class="button" href={stepAddress(id, "spare")}>
          {words.spare}
        </a>
      )}
      {sealed && voidable(state).length > 0 ? (
        <a class="button" href={stepAddress(id, "void")}>
          {words.void}
        </a>
      ) : null}
      {state.close ? null : (
        <a class="button" href={stepAddress(id, "close")}>
          {words.close}
        </a>
      )}
      <a class="button" href={papersAddress(id)}>
        {words.papers}
      </a>
      {planOf(state)?.blank ? null : (
        <a class="button" href={stepAddress(id, "masses")}>
          {massesWords.action}
        </a>
      )}
      <span class="small">
        <button type="button" class="quiet" onClick={() => doing.run(() => saveFile(lead, id))}>
          {words.file}
        </button>
        <button type="button" class="quiet" onClick={() => doing.run(() => copyPlan(lead, id, state))}>
          {words.copy}
        </button>
        {planOf(state)?.blank === false ? (
          <button type="button" class="quiet" onClick={() => doing.run(() => makeBlank(lead, id, state))}>
            {blankWords.make}
          </button>
        ) : null}
      </span>
      <ProblemNote thrown={doing.thrown} />
    </nav>
  );
}

/** Hands the log over as a file: every text this device holds. */
async function saveFile(lead: Lead, id: string): Promise<void> {
  const stream = { kind: "study" as const, id };
  const events = await knownTexts(lead.store, stream);
  const quarantined = (await pulledState(lead.store, stream))?.quarantined ?? 0;
  const text = writeStudyFile({ app: appVersion, exportedAt: lead.now(), study: id, quarantined, events });
  saveText(`cloche-study-${id.slice(0, 8)}.json`, "application/json", text);
}

/** Begins a new study with this plan: the way on after a mistake that the lock made final. */
async function copyPlan(lead: Lead, id: string, state: StudyState): Promise<void> {
  const plan = planOf(state);
  if (plan) await copyStudy(lead, id, plan);
}

async function makeBlank(lead: Lead, id: string, state: StudyState): Promise<void> {
  const plan = planOf(state);
  if (plan) await blankStudy(lead, id, plan);
}
