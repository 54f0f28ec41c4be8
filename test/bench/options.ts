import { parseArgs } from "node:util";

export const allGoals = [2, 5, 7, 9, 10, 11, 12] as const;
export type Goal = (typeof allGoals)[number];

export type Options = {
  goals: Goal[];
  /** Fewer rounds, to see that everything runs; the figures mean little. */
  quick: boolean;
  /** The JSON goes there. */
  out: string;
};

export const usage = `npm run bench -- [--goals 2,5,7,9,10,11,12] [--quick] [--out bench.json]

  2  a tap on Keep until the answer is durable, against a skeleton page
  5  cold start of the panel without network, against a static page
  7  taking in events, against raw inserts and bare disk flushes
  9  critical numbers, against R; one d-prime and one panel size, against a frame
 10  a mixed model of 1,080 marks, whole and with a tenth missing, against R's lme4
 11  a serving plan for 9,750 panelists, against loops in R; 1,000 rehearsals
 12  a report of 100,000 answers: groups described, against R's tapply; what the page is like`;

/** Reads the arguments. Returns the options; a sentence when they make no sense; null when help is asked for. */
export function readOptions(given: string[]): Options | string | null {
  try {
    const { values } = parseArgs({
      args: given,
      options: {
        goals: { type: "string", default: allGoals.join(",") },
        quick: { type: "boolean", default: false },
        out: { type: "string", default: "bench.json" },
        help: { type: "boolean", short: "h", default: false },
      },
    });
    if (values.help) return null;
    const goals = values.goals.split(",").map(Number);
    const unknown = goals.find((goal) => !allGoals.some((known) => known === goal));
    if (unknown !== undefined) return `--goals takes some of ${allGoals.join(", ")}, not “${values.goals}”.`;
    return { goals: allGoals.filter((goal) => goals.includes(goal)), quick: values.quick, out: values.out };
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
