import { withNewIds } from "../design/begin.ts";
import type { Attribute } from "../model/attribute.ts";
import { newId } from "../model/id.ts";
import { sameMoment } from "../model/moments.ts";
import { kitchenWords } from "../words/en/organizer-kitchen.ts";
import { useLead } from "./app-context.ts";
import { useKitchen } from "./facts.ts";
import { asAttribute } from "./kitchen-edit.ts";

const words = kitchenWords.picker;

/**
 * The properties of the kitchen's list that a plan does not have yet, each with a button that hands it over under an
 * id of its own. Nothing where the list has no other.
 */
export function PropertyPicker(props: { taken: readonly Asked[]; onPick: (attribute: Attribute) => void }) {
  const { store } = useLead();
  const { current } = useKitchen(store) ?? { current: null };
  const free = (current?.kitchen.properties ?? []).filter(
    (property) => property.name.trim() !== "" && !props.taken.some((taken) => sameProperty(taken, property)),
  );
  if (free.length === 0) return null;
  return (
    <div class="picker">
      <p class="label">{words.heading}</p>
      <ul class="plain">
        {free.map((property) => (
          <li key={property.id}>
            {property.name.trim()}{" "}
            <span class="fine">
              {kitchenWords.property.summary([property.moment, ...property.further.map(({ moment }) => moment)], false)}
            </span>{" "}
            <button type="button" class="quiet" onClick={() => props.onPick(withNewIds(asAttribute(property), newId))}>
              {words.pick}
              <span class="unseen">{words.pickOf(property.name.trim())}</span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

type Asked = Pick<Attribute, "name" | "moment">;

/** One property at one moment. */
const sameProperty = (one: Asked, other: Asked): boolean =>
  one.name.trim().toLowerCase() === other.name.trim().toLowerCase() && sameMoment(one.moment, other.moment);
