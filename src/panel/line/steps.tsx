import { placeOfStep } from "../../model/steps.ts";
import { panelLine as words } from "../../words/en/panel-line.ts";
import { useDesk } from "../desk.ts";

type Props = {
  labels: readonly string[];
  /** Of the chosen step, 0 to 1; null while none is. */
  place: number | null;
  /** Takes the step, from 1. */
  choose: (step: number) => void;
  /** It is on disk, and shows for another moment. */
  kept: boolean;
};

/**
 * Labeled steps, low to high: equal boxes, none chosen to begin with. They stand in one row where the words are short
 * and there is room for all of them, else below one another.
 */
export function Steps({ labels, place, choose, kept }: Props) {
  const { question } = useDesk().words;
  const of = labels.length;
  // a digit chooses its step wherever the focus lies among them, and the focus goes along
  const byDigit = (event: KeyboardEvent): void => {
    const step = Number(event.key);
    if (!(step >= 1 && step <= of) || event.ctrlKey || event.altKey || event.metaKey) return;
    if (!(event.currentTarget instanceof HTMLElement)) return;
    event.preventDefault();
    event.currentTarget.querySelectorAll("input")[step - 1]?.focus();
    choose(step);
  };
  return (
    <fieldset
      class={`steps ${rowOf(labels)}`}
      style={{ "--columns": of }}
      aria-labelledby="title"
      inert={kept}
      onKeyDown={byDigit}
    >
      {labels.map((label, at) => {
        const chosen = place === placeOfStep(at + 1, of);
        return (
          <label key={placeOfStep(at + 1, of)} class={chosen ? "field chosen" : "field"}>
            <input class="unseen" type="radio" name="step" checked={chosen} onChange={() => choose(at + 1)} />
            {label.trim() === "" ? <span class="unseen">{words.step(at + 1, of)}</span> : <span>{label}</span>}
            <small aria-hidden="true">{chosen ? question.chosen : ""}</small>
          </label>
        );
      })}
    </fieldset>
  );
}

/** Characters of the longest word that a box of a row has room for, by how many boxes there are at most. */
const rows = [
  { name: "few", most: 3, characters: 16 },
  { name: "some", most: 5, characters: 13 },
  { name: "more", most: 7, characters: 11 },
  { name: "many", most: 9, characters: 10 },
] as const;

/** Which width of the page puts the steps in one row, as a class; empty where none does. */
function rowOf(labels: readonly string[]): string {
  const longest = Math.max(...labels.flatMap((label) => label.split(/\s/).map((word) => word.length)));
  return rows.find(({ most, characters }) => labels.length <= most && longest <= characters)?.name ?? "";
}
