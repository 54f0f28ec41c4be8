import type { Moment } from "../model/attribute.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Choice } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";

const words = planWords.scale;

/** What a lead who never chose a number begins with: custom puts the later moment at 10 to 15 seconds. */
const begins: Record<Moment["at"], Moment> = {
  "first-bite": { at: "first-bite" },
  after: { at: "after", seconds: 10 },
  chews: { at: "chews", chews: 15 },
  "before-swallowing": { at: "before-swallowing" },
};

/** When a property is judged. The number has its field where the moment has one; its id ends in "-seconds" or "-chews". */
export function MomentFields(props: {
  id: string;
  legend: string;
  moment: Moment;
  onChange: (moment: Moment) => void;
}) {
  const { id, legend, moment, onChange } = props;
  return (
    <>
      <Choice
        id={id}
        legend={legend}
        options={words.moments}
        value={moment.at}
        onChange={(at) => onChange(begins[at])}
      />
      {moment.at === "after" ? (
        <NumberField
          id={`${id}-seconds`}
          label={words.seconds}
          unit={words.second}
          value={moment.seconds}
          low={1}
          high={120}
          whole
          onValue={(seconds) => seconds !== null && onChange({ at: "after", seconds })}
        />
      ) : null}
      {moment.at === "chews" ? (
        <NumberField
          id={`${id}-chews`}
          label={words.chews}
          unit={words.chew}
          value={moment.chews}
          low={1}
          high={60}
          whole
          onValue={(chews) => chews !== null && onChange({ at: "chews", chews })}
        />
      ) : null}
    </>
  );
}
