import type { Plan } from "../model/plan.ts";
import { current, kitchenPlan, steamed, waves } from "./kitchen.ts";

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
