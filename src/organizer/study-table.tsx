import { organizer } from "../words/en/organizer.ts";
import { blankWords } from "../words/en/organizer-blank.ts";
import { studiesWords as words } from "../words/en/organizer-studies.ts";
import { studyAddress } from "./route.ts";
import type { Known } from "./study-find.ts";

const titleOf = ({ plan }: Known): string => plan.title.trim() || organizer.untitled;

/** Studies as rows: title and method, where it stands, when it was begun and last changed, and a copy of its plan. */
export function StudyTable({ studies, onCopy }: { studies: readonly Known[]; onCopy: (study: Known) => void }) {
  const { columns } = words;
  return (
    <table class="studies">
      <thead>
        <tr>
          <th scope="col">{columns.title}</th>
          <th scope="col">{columns.state}</th>
          <th scope="col">{columns.begun}</th>
          <th scope="col">{columns.last}</th>
          <td />
        </tr>
      </thead>
      <tbody>
        {studies.map((study) => (
          <tr key={study.id}>
            <th scope="row">
              <a href={studyAddress(study.id)}>{titleOf(study)}</a>
              <p class="fine">
                {words.methods[study.plan.method]}
                {study.plan.blank ? ` \u00b7 ${blankWords.badge}` : ""}
                {study.plan.invented ? ` \u00b7 ${words.invented}` : ""}
              </p>
            </th>
            <td>{stageText(study)}</td>
            <td class="when">
              <span class="narrow-only">{columns.begun} </span>
              {study.begun ? organizer.day(study.begun) : ""}
            </td>
            <td class="when">
              <span class="narrow-only">{columns.last} </span>
              {study.last ? organizer.dayAndTime(study.last) : ""}
            </td>
            <td class="number">
              <button type="button" class="quiet" onClick={() => onCopy(study)}>
                {words.copy}
                <span class="unseen">{words.copyOf(titleOf(study))}</span>
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Where a study stands, in words, with how many trays of the plan are answered. */
function stageText({ stage, answered, planned }: Known): string {
  switch (stage) {
    case "draft":
      return words.stages.draft;
    case "locked":
      return words.stages.locked(planned);
    default:
      return words.stages[stage](answered, planned);
  }
}
