import type { Plan } from "../model/plan.ts";
import { usualPace } from "../model/plan-question.ts";
import { current, held, kitchenPlan, rested, steamed, waves } from "./kitchen.ts";

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
  ifYes: `Then ${buy}.`,
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
        form: { kind: "line" },
        lowAnchor: "not juicy at all",
        highAnchor: "extremely juicy",
        moment: { at: "after", seconds: 10 },
        further: [],
        inFamily: false,
      },
    ],
  },
  waves: waves(["14:30", "15:00"], 6, [current, steamed, rested], 9),
});

/** Q11: does what is juicy at the first bite stay so? The same three, marked three times over one chew. */
export const chewPlan = (): Plan => ({
  ...kitchenPlan([current, steamed, rested]),
  title: "Demo: Steam first, juicy to the end?",
  objective: "Find out whether the new process stays juicier than the current one until just before swallowing.",
  ifYes: "Serve the new process whole, not sliced: its juice lasts.",
  ifNo: "Look at the first bite alone.",
  method: "line-scale",
  people: 12,
  spares: 1,
  scale: {
    lengthMm: 120,
    attributes: [
      {
        id: chewQuestions.end,
        name: "Juiciness",
        adjective: "juicy",
        definition: "How much juice you feel in the mouth while you chew.",
        form: { kind: "line" },
        lowAnchor: "not juicy at all",
        highAnchor: "extremely juicy",
        moment: { at: "before-swallowing" },
        further: [
          { id: chewQuestions.first, moment: { at: "first-bite" } },
          { id: chewQuestions.later, moment: { at: "after", seconds: 10 } },
        ],
        inFamily: false,
      },
    ],
  },
  waves: waves(["10:15", "10:55"], 6, [current, steamed, rested], 31),
});

/** Ids of the three questions of Q11. */
export const chewQuestions = {
  first: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b0d",
  later: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b0e",
  end: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b0f",
} as const;

/** Q8: in which order do four stand, from least to most juicy? 12 people; no order was expected beforehand. */
export const rankingPlan = (): Plan => ({
  ...kitchenPlan([current, steamed, rested, held]),
  title: "Demo: Steam first, in which order?",
  objective: "Find out how the new process stands between the current one, a covered rest and a long hold.",
  ifYes: "Serve what stands highest, and never hold it longer than it can bear.",
  ifNo: "Choose by cook loss and cost alone.",
  method: "ranking",
  people: 12,
  spares: 1,
  ranking: {
    name: "Juiciness",
    least: "least juicy",
    most: "most juicy",
    definition: "How much juice you feel in the mouth while you chew.",
    predicted: [],
    liking: false,
  },
  waves: waves(["13:00", "13:40"], 6, [current, steamed, rested, held], 33),
});

/** Ids of the two questions of Q12. */
export const likingQuestions = {
  liking: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b10",
  juiciness: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b11",
} as const;

/** Q12: how well is each of the two liked, and is it juicy enough? 60 diners, nine steps of liking and five of just right. */
export const likingPlan = (): Plan => ({
  ...kitchenPlan([current, steamed]),
  title: "Demo: Steam first, how well is it liked?",
  objective:
    "Find out whether diners like the new process better, and whether meatballs are too dry or too juicy for them.",
  ifYes: "Cook the one that is liked better, if the weighing allows it.",
  ifNo: "Decide by cook loss and cost alone.",
  standsFor: "grown-up diners of the four canteens",
  panelType: "consumers",
  method: "line-scale",
  people: 60,
  spares: 6,
  scale: {
    lengthMm: 120,
    attributes: [
      {
        id: likingQuestions.liking,
        name: "Liking",
        adjective: "",
        definition: "The meatball as a whole.",
        form: {
          kind: "steps",
          liking: true,
          labels: [
            ...["dislike extremely", "dislike very much", "dislike moderately", "dislike slightly"],
            "neither like nor dislike",
            ...["like slightly", "like moderately", "like very much", "like extremely"],
          ],
        },
        lowAnchor: "",
        highAnchor: "",
        moment: { at: "before-swallowing" },
        further: [],
        inFamily: false,
      },
      {
        id: likingQuestions.juiciness,
        name: "Juiciness",
        adjective: "juiciness",
        definition: "How much juice you feel in the mouth while you chew.",
        form: {
          kind: "just-right",
          labels: ["far too little", "a little too little", "just right", "a little too much", "far too much"],
        },
        lowAnchor: "",
        highAnchor: "",
        moment: { at: "before-swallowing" },
        further: [],
        inFamily: false,
      },
    ],
  },
  waves: waves(["12:00", "12:20", "12:40", "13:00"], 15, [current, steamed], 35),
});

/** Q9: how much mass do chewed portions gain? 8 people, three times both products, 5 g chewed for 15 s. */
export const weighPlan = (): Plan => {
  const portions = [current, steamed].map((product) => ({
    ...product,
    preparation: product.preparation.replace("12 g samples", "5 g portions"),
  }));
  const plan = kitchenPlan(portions);
  return {
    ...plan,
    title: "Demo: Steam first, what do chewed portions gain?",
    objective:
      "Find out whether portions of the two processes gain different masses while they are chewed for 15 seconds.",
    ifYes: "Put it beside what people felt; it is no measure of juiciness.",
    ifNo: "Go by what people felt alone.",
    method: "chew-and-weigh",
    people: 8,
    repeats: 3,
    spares: 1,
    chew: { ...plan.chew, balanceStep: "0.01", matters: 2, scatter: { deviation: 1.7, from: "a guess" } },
    serving: {
      ...plan.serving,
      ...{
        portionGrams: 5,
        swallow: "spit",
        pauseSeconds: 60,
        retaste: false,
        vessel: "white cups with lids, one a portion",
      },
    },
    waves: waves(["10:00", "11:00"], 4, [current, steamed], 39),
  };
};

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
