import type { StudyState } from "../log/fold.ts";
import { dayOf, type KitchenDay } from "../log/kitchen-day.ts";
import type { Plan } from "../model/plan.ts";
import { organizer } from "../words/en/organizer.ts";
import { dayWords } from "../words/en/organizer-day.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { BatchPage } from "./batch-page.tsx";
import { Page } from "./page.tsx";
import { ReadingPage } from "./reading-page.tsx";
import type { DayStep } from "./route.ts";
import { BackToDay } from "./step-parts.tsx";
import { TrayPage } from "./tray-page.tsx";

type Props = { id: string; plan: Plan; state: StudyState; step: DayStep; of: number };

/** The kitchen's day by the clock of this page. A locked study has one. */
export function useDay(state: StudyState): KitchenDay {
  const day = dayOf(state, Date.parse(useLead().now()));
  if (!day) throw new Error("a locked study has a day");
  return day;
}

/** A page of the day that is about one wave or one tray. */
export function DayStepPage({ id, plan, state, step, of }: Props) {
  const day = useDay(state);
  if (step === "tray") {
    const tray = day.trays.get(of);
    return tray ? (
      <TrayPage {...{ id, plan, state, day, tray }} />
    ) : (
      <Missing id={id} text={organizer.errors.unknownText} />
    );
  }
  if (!day.labeled) return <Missing id={id} text={onDayWords.noLabels} />;
  const wave = day.waves.find((each) => each.wave === of);
  if (!wave) return <Missing id={id} text={organizer.errors.unknownText} />;
  if (state.close) return <Missing id={id} text={dayWords.spare.over} />;
  return step === "reading" ? <ReadingPage {...{ id, plan, wave }} /> : <BatchPage {...{ id, state, day, wave }} />;
}

function Missing({ id, text }: { id: string; text: string }) {
  return (
    <Page heading={organizer.errors.unknownPage} windowTitle={organizer.errors.unknownPage}>
      <BackToDay id={id} />
      <p class="lead-in">{text}</p>
    </Page>
  );
}
