import { type Attribute, type Moment, mostFurther } from "../model/attribute.ts";
import { newId } from "../model/id.ts";
import { sameMoment } from "../model/moments.ts";
import { focusSoon } from "../ui/focus.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { MomentFields } from "./moment-fields.tsx";

const words = planWords.scale.further;

/** What is offered next: the usual moments over a chew, as far as the property does not have them. */
const usual: readonly Moment[] = [
  { at: "first-bite" },
  { at: "after", seconds: 10 },
  { at: "before-swallowing" },
  { at: "after", seconds: 20 },
  { at: "after", seconds: 30 },
];

function nextMoment({ moment, further }: Pick<Attribute, "moment" | "further">): Moment {
  const taken = [moment, ...further.map((other) => other.moment)];
  // beside chews no seconds are offered: the two do not stand in one plan
  const offered = taken.some(({ at }) => at === "chews")
    ? usual.map((one): Moment => (one.at === "after" ? { at: "chews", chews: one.seconds } : one))
    : usual;
  return offered.find((one) => !taken.some((other) => sameMoment(one, other))) ?? { at: "after", seconds: 40 };
}

type Props = {
  /** Ids of the fields begin with it. */
  id: string;
  attribute: Pick<Attribute, "moment" | "further">;
  /** May it be asked at yet another moment? */
  mayAdd: boolean;
  onChange: (further: Attribute["further"], said?: string) => void;
};

/** Further moments of a property, each a question of its own about the same chew. */
export function FurtherMoments({ id, attribute, mayAdd, onChange }: Props) {
  const { further } = attribute;
  const fieldOf = (at: number): string => `${id}-${at + 1}`;
  return (
    <>
      {further.map((one, at) => (
        <div key={one.id} class="part">
          <MomentFields
            id={fieldOf(at)}
            legend={words.legend(at)}
            moment={one.moment}
            onChange={(moment) =>
              onChange(further.map((other) => (other.id === one.id ? { ...other, moment } : other)))
            }
          />
          <button
            type="button"
            class="quiet"
            onClick={() => {
              onChange(
                further.filter((other) => other.id !== one.id),
                words.removed,
              );
              focusSoon(`${id}-add`);
            }}
          >
            {words.remove(at)}
          </button>
        </div>
      ))}
      {mayAdd && further.length < mostFurther ? (
        <p>
          <button
            type="button"
            class="quiet"
            id={`${id}-add`}
            onClick={() => {
              onChange([...further, { id: newId(), moment: nextMoment(attribute) }]);
              focusSoon(fieldOf(further.length), "center");
            }}
          >
            {words.add}
          </button>{" "}
          <span class="fine">{words.hint}</span>
        </p>
      ) : null}
    </>
  );
}
