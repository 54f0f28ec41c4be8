import type { Plan } from "../model/plan.ts";
import { usualPace } from "../model/plan-question.ts";
import { buyOven, current, kitchenPlan, rested, steamed, waves } from "./kitchen.ts";

/** Plans of the demo in which people choose: which is the odd one, which is juicier, which is preferred. */

/** Q1: can the canteen staff tell the two processes apart? 24 people, one triangle each. */
export const trianglePlan = (): Plan => ({
  ...kitchenPlan([current, steamed]),
  title: "Demo: Steam first, can our staff tell?",
  objective: "Find out whether canteen staff notice that the meatballs are steamed before they are browned.",
  ifYes: `Ask which one is juicier. If it is the new one, ${buyOven}.`,
  ifNo: "Stay with the dry oven.",
  method: "triangle",
  people: 24,
  spares: 3,
  pace: { ...usualPace(), windowFrom: 4, windowTo: 15 },
  waves: waves(["11:15", "11:30", "11:45", "12:00"], 6, [current, steamed]),
});

/** Q2: is it told from the current process, which everybody knows? 12 people, three duo-trios each. */
export const duoTrioPlan = (): Plan => ({
  ...kitchenPlan([current, steamed]),
  title: "Demo: Steam first, is it told from what we know?",
  objective: "Find out whether twelve colleagues tell the new process from the current one, which they know well.",
  ifYes: "Ask which one is juicier.",
  ifNo: "Look for a difference with more people.",
  method: "duo-trio",
  reference: { kind: "constant", product: current.id },
  people: 12,
  repeats: 3,
  spares: 3,
  waves: waves(["10:05", "10:45"], 6, [current, steamed], 21),
});

/** Q3: the same question with four cups. 18 people. */
export const tetradPlan = (): Plan => ({
  ...kitchenPlan([current, steamed]),
  title: "Demo: Steam first, four cups",
  objective: "Find out with few people whether the two processes can be told apart.",
  ifYes: "Ask which one is juicier.",
  ifNo: "Look for a difference with more people.",
  method: "tetrad",
  people: 18,
  spares: 2,
  waves: waves(["14:00", "14:20", "14:40"], 6, [current, steamed], 23),
});

const juicier = (id: string): Plan["properties"] => [
  {
    id,
    name: "Juiciness",
    comparative: "juicier",
    definition: "How much juice you feel in the mouth while you chew.",
    expected: steamed.id,
    inFamily: true,
  },
];

/** Q4: is the new process juicier, as expected? 24 people, one pair each. */
export const differencePlan = (): Plan => ({
  ...kitchenPlan([current, steamed]),
  title: "Demo: Steam first, is it juicier?",
  objective: "Find out whether canteen staff find the new process juicier than the current one.",
  ifYes: `Then ${buyOven}.`,
  ifNo: "Stay with the dry oven.",
  method: "paired-difference",
  sides: "one",
  properties: juicier("c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b0b"),
  people: 24,
  spares: 2,
  waves: waves(["10:30", "10:50"], 12, [current, steamed], 26),
});

/** Q5: the same with three cups. 24 people. */
export const alternativePlan = (): Plan => ({
  ...kitchenPlan([current, steamed]),
  title: "Demo: Steam first, the juicier of three",
  objective: "Find out whether canteen staff pick the new process out of three as the juicier one.",
  ifYes: "Buy a second steam oven, if the weighing agrees.",
  ifNo: "Stay with the dry oven.",
  method: "three-alternative",
  properties: juicier("c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b0c"),
  people: 24,
  spares: 3,
  waves: waves(["15:30", "15:50", "16:10", "16:30"], 6, [current, steamed], 28),
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
