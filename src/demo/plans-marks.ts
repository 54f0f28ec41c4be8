import type { Plan } from "../model/plan.ts";
import { buyOven, current, held, kitchenPlan, rested, steamed, waves } from "./kitchen.ts";

/** Plans of the demo in which people mark lines or steps, or put samples in order. */

/** What Q7 and Q11 ask of every sample. */
const juiciness = {
  name: "Juiciness",
  adjective: "juicy",
  definition: "How much juice you feel in the mouth while you chew.",
  form: { kind: "line" as const },
  lowAnchor: "not juicy at all",
  highAnchor: "extremely juicy",
};

/** Q7: how juicy are the two processes, and does a rest add to it? 12 people, three products, the line after 10 s. */
export const linePlan = (): Plan => ({
  ...kitchenPlan([current, steamed, rested]),
  title: "Demo: Steam first, how juicy?",
  objective: "Find out how much juicier the new process is, and whether a covered rest adds to it.",
  ifYes: `If the new process is juicier, ${buyOven}.`,
  ifNo: "Stay with the dry oven.",
  method: "line-scale",
  people: 12,
  spares: 1,
  scale: {
    lengthMm: 120,
    attributes: [
      {
        id: "c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d2b0a",
        ...juiciness,
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
        ...juiciness,
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
