import { knownStudies } from "../device/pull.ts";
import type { Plan } from "../model/plan.ts";
import { useReading } from "../ui/use-store.ts";
import { organizer } from "../words/en/organizer.ts";
import { studiesWords } from "../words/en/organizer-studies.ts";
import { useLead } from "./app-context.ts";
import { watchOf } from "./facts.ts";
import { studyAddress } from "./route.ts";

/** The study whose plan this one began with, by its title then. Nothing for a plan that began anew. */
export function CopiedFrom({ plan: { copiedFrom } }: { plan: Pick<Plan, "copiedFrom"> }) {
  const { store } = useLead();
  const known = useReading(() => knownStudies(store), watchOf(store), []);
  if (copiedFrom === null) return null;
  const title = copiedFrom.title.trim() || organizer.untitled;
  return (
    <p class="fine under">
      {studiesWords.copiedFrom} {/* the plan of a file may be another kitchen's */}
      {known?.includes(copiedFrom.study) ? <a href={studyAddress(copiedFrom.study)}>{title}</a> : title}
    </p>
  );
}
