import type { Plan } from "../model/plan.ts";
import { organizer } from "../words/en/organizer.ts";
import { studiesWords } from "../words/en/organizer-studies.ts";
import { studyAddress } from "./route.ts";

/** The study whose plan this one began with, by its title then. Nothing for a plan that began anew. */
export function CopiedFrom({ plan: { copiedFrom } }: { plan: Pick<Plan, "copiedFrom"> }) {
  if (copiedFrom === null) return null;
  return (
    <p class="fine under">
      {studiesWords.copiedFrom}{" "}
      <a href={studyAddress(copiedFrom.study)}>{copiedFrom.title.trim() || organizer.untitled}</a>
    </p>
  );
}
