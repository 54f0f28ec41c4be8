import type { ScaleForm } from "../../model/attribute.ts";

/** How a property may be judged, as the lead chooses it; `liking` is a scale of steps that asks for liking. */
export type FormKind = ScaleForm["kind"] | "liking";

const word = (start: string, adjective: string): string => `${start} ${adjective.trim()}`.trim();

const labelsOf = (labels: readonly string[]): string => labels.map((label) => label.trim() || "(no words)").join(" / ");

/** Labels to start from. Those of steps go with the word of the question. */
const sets = {
  steps: [
    {
      name: "5 steps",
      labels: (adjective: string) =>
        ["not at all", "slightly", "moderately", "very", "extremely"].map((degree) => word(degree, adjective)),
    },
    {
      name: "7 steps",
      labels: (adjective: string) =>
        ["not at all", "barely", "slightly", "moderately", "rather", "very", "extremely"].map((degree) =>
          word(degree, adjective),
        ),
    },
  ],
  liking: [
    {
      name: "9 steps of liking",
      labels: () => [
        ...["extremely", "very much", "moderately", "slightly"].map((degree) => `dislike ${degree}`),
        "neither like nor dislike",
        ...["slightly", "moderately", "very much", "extremely"].map((degree) => `like ${degree}`),
      ],
    },
    {
      name: "5 steps of liking",
      labels: () => ["dislike a lot", "dislike a little", "neither like nor dislike", "like a little", "like a lot"],
    },
  ],
  "just-right": [
    {
      name: "Just right, 5 steps",
      labels: () => ["far too little", "a little too little", "just right", "a little too much", "far too much"],
    },
    { name: "Just right, 3 steps", labels: () => ["too little", "just right", "too much"] },
  ],
} satisfies Record<Exclude<FormKind, "line">, { name: string; labels: (adjective: string) => string[] }[]>;

/** What the word of the question is, and where it may be left out. */
const adjective: Record<FormKind, { label: string; hint: string }> = {
  line: { label: "Word in the question", hint: "juicy" },
  steps: { label: "Word in the question", hint: "juicy" },
  liking: { label: "Liking of what?", hint: "juiciness; empty: the whole sample" },
  "just-right": { label: "Noun in the question", hint: "juiciness" },
};

export const form = {
  legend: "How is it judged?",
  kinds: [
    { value: "line", label: "A mark on a line", hint: "between two end words. Tells small differences apart best." },
    {
      value: "steps",
      label: "Labeled steps",
      hint: "one of 2 to 11. Quick, also on a phone, and needs no card check; coarser than a line.",
    },
    {
      value: "liking",
      label: "Steps of liking",
      hint: "how much somebody likes it. Speaks for the people asked only: an in-house panel is no stand-in for customers.",
    },
    {
      value: "just-right",
      label: "Just right",
      hint: "too little, just right or too much. Says which way to change something, not by how much; never the first property.",
    },
  ] as const satisfies readonly { value: FormKind; label: string; hint: string }[],
  adjective,
  sets,
  start: "Labels to start from:",
  labels: "Labels, low to high",
  labelsHint: {
    steps: "The first and the last need words; those between may stay empty.",
    "just-right": "The middle one is \u201cjust right\u201d; each of them needs words.",
  },
  label: (step: number, of: number) =>
    step === 1 ? "Step 1, the low end" : step === of ? `Step ${step}, the high end` : `Step ${step}`,
  addStep: "Add a step",
  removeStep: "Remove a step",
  steps: (count: number) => `The scale has ${count} steps now.`,
  likingBeside:
    "Liking is asked on the same tray as how much there is of something. Whoever was just asked for differences likes otherwise: better ask for liking in a study of its own, of people who eat the food.",
  /** One line for the page before lock. */
  inOneLine: (labels: readonly string[]) => `${labels.length} steps: ${labelsOf(labels)}.`,
};

/** How a property is judged, where two versions of a plan differ in it. */
export function formSaid(form: ScaleForm): string {
  if (form.kind === "line") return "a mark on a line";
  const steps = `${form.labels.length} steps`;
  const kind = form.kind === "just-right" ? `just right, ${steps}` : form.liking ? `${steps} of liking` : steps;
  return `${kind}: ${labelsOf(form.labels)}`;
}

/** How a property is judged, after its name; nothing for a line. */
export function formShort(form: ScaleForm): string {
  if (form.kind === "line") return "";
  if (form.kind === "just-right") return " (just right)";
  return form.liking ? ` (liking, ${form.labels.length} steps)` : ` (${form.labels.length} steps)`;
}

const same = (one: readonly string[], other: readonly string[]): boolean =>
  one.length === other.length && one.every((label, at) => label === other[at]);

/** Labels that nobody has changed go along with the word of the question; others stay. */
export function followingLabels(labels: string[], before: string, after: string): string[] {
  const set = sets.steps.find((each) => same(each.labels(before), labels));
  return set ? set.labels(after) : labels;
}
