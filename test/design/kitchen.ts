import { emptyKitchen } from "../../src/design/begin.ts";
import type { Kitchen, KitchenProperty } from "../../src/model/kitchen.ts";

export const juiciness: KitchenProperty = {
  id: "4a0e5d86-b3cc-4b9d-8f30-4c1d8e5a6b04",
  name: "Juiciness",
  adjective: "juicy",
  definition: "How much juice comes out while chewing.",
  form: { kind: "line" },
  lowAnchor: "not at all juicy",
  highAnchor: "extremely juicy",
  moment: { at: "after", seconds: 10 },
  further: [],
  starts: true,
};
export const tenderness: KitchenProperty = {
  ...juiciness,
  id: "5b1f6e97-c4dd-4cae-9041-5d2e9f6b7c05",
  name: "Tenderness",
  adjective: "tender",
  definition: "How easily it can be bitten through.",
  lowAnchor: "not at all tender",
  highAnchor: "extremely tender",
  moment: { at: "first-bite" },
  further: [],
  starts: false,
};

/** What the invented Quillmere Kitchen usually does. */
export function kitchenOf(changes: Partial<Kitchen> = {}): Kitchen {
  return {
    ...emptyKitchen(),
    serving: {
      portionGrams: 12,
      servingCelsius: 55,
      vessel: "white lidded cups",
      cleanser: "water and plain crackers",
      pauseSeconds: 45,
      swallow: "either",
      retaste: true,
      warmUp: true,
      warmUpWhat: "one meatball of the current process",
    },
    palette: "dim",
    place: "Quillmere Kitchen, window bench",
    cautionsApplying: ["hygiene", "choking", "undercooked"],
    avoidCodes: ["112", "404"],
    alpha: 0.01,
    panelType: "trained",
    standsFor: "staff of the four canteens",
    properties: [juiciness, tenderness],
    ...changes,
  };
}
