import { listed, organizer, plural } from "./organizer.ts";
import { figure, oneDecimal } from "./organizer-figures.ts";

/** Words of the time at the table, and of what is worth a second look before a lock. */
const { nb } = organizer;

/** "half a minute", "4 minutes"; nobody measured it, so it is rounded. */
const about = (seconds: number): string =>
  seconds < 45 ? `${Math.round(seconds / 5) * 5}${nb}seconds` : plural(Math.round(seconds / 60), "minute", "minutes");

/** Minutes of a cup that is too late are never rounded into the window. */
const late = (minutes: number): string => oneDecimal(Math.ceil(minutes * 10) / 10);

/** Each by itself; null where it alone is not enough, or there is nothing to change. */
type Remedy = { people: number | null; samples: number | null; pauseSeconds: number | null };

function remedies({ people, samples, pauseSeconds }: Remedy): string {
  const list = [
    ...(people === null ? [] : [`waves of ${people} at most`]),
    ...(samples === null
      ? []
      : [`${plural(samples, "sample", "samples")} a sitting, the other trays in a session of their own`]),
    ...(pauseSeconds === null ? [] : [`a pause of ${pauseSeconds}${nb}s`]),
  ];
  return list.length === 0
    ? "No single change is enough: make waves smaller, trays fewer and the pause shorter together, or keep the food as it should be for longer."
    : `What would do: ${list.join(", or ")}.`;
}

const flag = {
  "last-cup": ({ at, to, remedy }: { at: number; to: number; remedy: Remedy }) =>
    `The last cup is tasted ${late(at)} minutes after the heat, and you allow ${figure(to)}. Late places would be colder than early ones: that blurs what people taste, and place and cold can no longer be told apart. ${remedies(remedy)}`,
  "many-samples": ({ samples, most }: { samples: number; most: number }) =>
    `${samples} samples in a sitting, and you allow ${most}. Tired mouths find less. Spread the trays over sessions, or make a smaller study.`,
  "short-pause": ({ seconds }: { seconds: number }) =>
    seconds === 0
      ? "No pause between samples: what is left in the mouth goes into the next one. Thirty seconds are usual."
      : `A pause of ${seconds}${nb}s between samples is short. Thirty seconds are usual.`,
  looks: () => "The samples can be told apart by looking, and that is not masked. The report says so.",
  "one-batch": ({ products }: { products: readonly string[] }) =>
    `One batch only of ${listed(products.map((name) => `\u201c${name}\u201d`))}: the result then speaks of that pot. Two are the least, three if it is to hold for other days.`,
};

export const timeWords = {
  heading: "Time at the table",
  taste: "To taste and answer",
  serve: "To bring one tray",
  most: "Samples a sitting, at most",
  mostHint: "Six of a hot savory food are usual: two triangles, or three pairs.",
  hint: "Tasting without the pause; half a minute is common practice.",
  seconds: "seconds",
  window: "When the food is as it should be",
  windowHint: "Minutes after it leaves the heat. Leave it empty if that does not matter.",
  from: "From",
  to: "To",
  minutes: "min",
  sitting: (samples: number, seconds: number) =>
    `One person tastes ${plural(samples, "sample", "samples")} in a sitting, about ${about(seconds)}.`,
  wave: (people: number, seconds: number) =>
    people === 1 ? "" : `${people} people at once take about ${about(seconds)} from the first tray to the last answer.`,
  within: (at: number, to: number) =>
    `The last cup is tasted about ${late(at)} minutes after the heat, within the ${figure(to)} you allow.`,
  noWindow: "Say in part 4 how long the food is as it should be, and the last cup is held against it.",
  noSeats: "Add a wave, and the waiting for trays is counted in.",
  flag,
  flagsHeading: "Worth a second look",
  flagsLead: "None of this keeps you from locking.",
};
