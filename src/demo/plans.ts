import type { Plan } from "../model/plan.ts";
import { current, kitchenPlan, rested, steamed, waves } from "./kitchen.ts";

const buy = "buy a second steam oven (6 400 crowns) if it also saves at least 4 points of cook loss";

/** Q1: can the canteen staff tell the two processes apart? 24 people, one triangle each. */
export const trianglePlan = (): Plan => ({
  ...kitchenPlan([current, steamed]),
  title: "Demo: Steam first, can our staff tell?",
  objective: "Find out whether canteen staff notice that the meatballs are steamed before they are browned.",
  ifYes: `Ask which one is juicier. If it is the new one, ${buy}.`,
  ifNo: "Stay with the dry oven.",
  method: "triangle",
  people: 24,
  spares: 3,
  waves: waves(["11:15", "11:30", "11:45", "12:00"], 6, [current, steamed]),
});

/** Q6: which do diners prefer? 60 diners; "no preference" is offered and left out of the test. */
export const preferencePlan = (): Plan => ({
  ...kitchenPlan([current, steamed]),
  title: "Demo: Steam first, which do diners prefer?",
  objective: "Find out whether diners of the canteens prefer one of the two processes.",
  ifYes: "Cook the preferred one, if the weighing allows it.",
  ifNo: "Decide by cook loss and cost alone.",
  standsFor: "grown-up diners of the four canteens",
  panelType: "consumers",
  method: "paired-preference",
  noPreference: "dropped",
  people: 60,
  spares: 6,
  waves: waves(["12:20", "12:40", "13:00", "13:20"], 15, [current, steamed], 5),
});

/** Q7: how juicy are the two processes, and does a rest add to it? 12 people, three products, the line after 10 s. */
export const linePlan = (): Plan => ({
  ...kitchenPlan([current, steamed, rested]),
  title: "Demo: Steam first, how juicy?",
  objective: "Find out how much juicier the new process is, and whether a covered rest adds to it.",
  ifYes: `If the new process is juicier, ${buy}.`,
  ifNo: "Stay with the dry oven.",
  method: "line-scale",
  people: 12,
  spares: 1,
  scale: {
    lengthMm: 120,
    attributes: [
      {
        id: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b0a",
        name: "Juiciness",
        adjective: "juicy",
        definition: "How much juice you feel in the mouth while you chew.",
        lowAnchor: "not juicy at all",
        highAnchor: "extremely juicy",
        moment: { at: "after", seconds: 10 },
      },
    ],
  },
  waves: waves(["14:30", "15:00"], 6, [current, steamed, rested], 9),
});

/** Q10: is the new process with and without a rest alike enough? 60 triangles, locked and not yet tasted. */
export const likenessPlan = (): Plan => ({
  ...kitchenPlan([steamed, rested]),
  title: "Demo: With or without the rest, alike enough?",
  objective: "Show that leaving out the covered rest changes too little for more than 3 in 10 to tell.",
  ifYes: "Leave out the rest: the line is 8 minutes faster.",
  ifNo: "Keep the rest.",
  method: "triangle",
  goal: "similarity",
  similarity: { limit: 0.3, dPrime: null, beta: 0.05 },
  people: 60,
  spares: 6,
  waves: waves(["11:15", "11:35", "11:55", "12:15"], 15, [steamed, rested], 11),
});
