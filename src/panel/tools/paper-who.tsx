import { useState } from "preact/hooks";
import type { ProblemData } from "../../model/problem.ts";
import { trayLabel } from "../../model/tray.ts";
import { panelPaper } from "../../words/en/panel-paper.ts";
import type { Tray } from "../flow.ts";
import { Frame } from "../frame.tsx";
import { Next, Plain } from "../screens/pages.tsx";
import type { Person, Typings } from "./paper-log.ts";

const words = panelPaper.who;

/** A tray's ballot on paper, as far as this tablet knows it. */
export type About = {
  tray: Tray;
  typings: Typings;
  /** Where the two typings of this tablet differ, in words; none: they agree; null: it has not both. */
  difference: string[] | null;
  /** Another tablet sent something of the tray. */
  taken: boolean;
  closed: boolean;
};

type Option = { name: keyof typeof words.options; person: Person };

/** Which of the two people can type now. */
function optionsOf({ typings, difference }: About): Option[] {
  if (difference !== null) {
    return difference.length === 0
      ? []
      : [
          { name: "first-again", person: 1 },
          { name: "second-again", person: 2 },
        ];
  }
  if (typings[1]) return [{ name: "second-after", person: 2 }];
  if (typings[2]) return [{ name: "first-after", person: 1 }];
  return [
    { name: "first-fresh", person: 1 },
    { name: "second-elsewhere", person: 2 },
  ];
}

type Props = {
  about: About;
  problem: ProblemData | null;
  type: (person: Person) => void;
  anew: () => void;
  back: () => void;
};

/** Who sits at the tablet: the first person, or the second, who does not know what was typed. No name is asked for. */
export function WhoTypes({ about, problem, type, anew, back }: Props) {
  const { tray, typings, difference, taken, closed } = about;
  const [chosen, setChosen] = useState<Person | null>(null);
  const [hint, setHint] = useState<string | null>(null);
  const options = optionsOf(about);
  const label = trayLabel(tray.tray);
  const go = (): void => {
    if (chosen === null) setHint(words.pick);
    else type(chosen);
  };
  const done = options.length === 0;
  return (
    <Frame
      title={words.title(label)}
      problem={problem}
      hint={hint}
      left={done ? <Plain label={words.anew} press={anew} /> : <Plain label={panelPaper.done.another} press={back} />}
      right={<Next label={done ? panelPaper.done.another : panelPaper.next} press={done ? back : go} />}
    >
      <p class="lead-in">
        {done
          ? words.checked(label)
          : difference
            ? words.differs
            : typings.count > 0 && !typings[1] && !typings[2]
              ? words.fresh(label)
              : typings.count > 0
                ? words.once(label)
                : words.never(label)}
      </p>
      {difference && difference.length > 0 ? <p>{words.where(difference)}</p> : null}
      {done ? <p class="fine">{words.whenVoided}</p> : null}
      {taken ? <p class="fine">{words.taken}</p> : null}
      {closed && !done ? <p class="fine">{words.closed}</p> : null}
      {done ? null : (
        <fieldset class="reasons">
          <legend>{words.legend}</legend>
          {options.map(({ name, person }) => (
            <label key={name} class="check">
              <input
                type="radio"
                name="who"
                checked={chosen === person}
                onChange={() => {
                  setChosen(person);
                  setHint(null);
                }}
              />
              <span>{words.options[name]}</span>
            </label>
          ))}
        </fieldset>
      )}
    </Frame>
  );
}
