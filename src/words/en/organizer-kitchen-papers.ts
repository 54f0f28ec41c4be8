import { organizer, plural } from "./organizer.ts";
import { figure } from "./organizer-figures.ts";

/** Words of the papers for the second person, for the door and for the kitchen's preparation. */
const { nb } = organizer;

/** "11:15" with minutes added, where a clock time was typed; null for anything else. */
export function clockAfter(starts: string, minutes: number): string | null {
  const [, hour = "", minute = ""] = /^([01]?\d|2[0-3])[:.]([0-5]\d)$/.exec(starts.trim()) ?? [];
  if (hour === "") return null;
  const day = 24 * 60;
  const at = (((Number(hour) * 60 + Number(minute) + Math.round(minutes)) % day) + day) % day;
  return `${String(Math.floor(at / 60)).padStart(2, "0")}:${String(at % 60).padStart(2, "0")}`;
}

const minutes = (count: number): string => plural(count, "minute", "minutes");
const relative = (count: number): string =>
  count === 0
    ? "when the wave begins"
    : count < 0
      ? `${minutes(-count)} before the wave begins`
      : `${minutes(count)} after the wave begins`;
/** A clock time where there is one, else how long before or after the start. */
const at = (starts: string, from: number): string => clockAfter(starts, from) ?? relative(Math.round(from));

export const kitchenPapers = {
  kitchenOnly: "Kitchen only. Names the products; holds no code and no key",
  checks: {
    how: "For the second person, who does not know the key. Hold each cup against the card of its tray: the code, the place, the lid, as full as the others, and nothing on it that tells one from another. Tick it, then sign for the tray. What is not right goes back to whoever filled it.",
    tray: "tray",
    place: (place: number) => `place ${place}`,
    reference: (mark: string) => `cup ${mark}, first`,
    signed: "checked by",
    wave: (trays: number, cups: number) => `${plural(trays, "tray", "trays")}, ${plural(cups, "cup", "cups")}`,
  },
  door: {
    heading: "Tasting in progress",
    quiet: "Quiet, please. Come in only when you are called.",
    begins: "Begins at",
    contains: "What is served contains",
    mayContain: "It may contain",
    nothing: "No allergen of the list is declared.",
    before: "Before you come in",
    beforeLines: [
      "If something here concerns you, do not taste. Tell the staff; nobody asks why.",
      "No food, smoke, gum or toothpaste in the hour before. No strong scent on skin or clothes.",
      "What you tasted and what you answered stays with you until everybody has been here.",
    ],
    cautions: "Please note",
    about: "What you are asked to take part in",
    contact: "Questions, or something is wrong",
    contactLabel: "Whom to ask, as the sign shall say it",
    contactHint:
      "A name and a telephone number. Left empty, it is whom the plan names, or a line to write on. This browser remembers it.",
  },
  prep: {
    lead: "From the plan alone. Grams are portions as they are served, spare trays and warm-ups among them; raw grams and what to buy are worked back from them by the losses that the plan names.",
    upTo: "Where the orders on trays are left to the lot, the most that it can bring is planned; some of it is then left over.",
    shopping: "In all",
    waveHead: (people: number, trays: number, spares: number) =>
      `${plural(people, "person", "people")}, ${plural(trays, "tray", "trays")}${spares > 0 ? ` and ${plural(spares, "spare tray", "spare trays")}` : ""}`,
    columns: {
      product: "product",
      batch: "batch",
      portions: "portions",
      grams: "served",
      raw: "raw",
      bought: "to buy",
      done: "ready",
    },
    noBatch: "not named yet",
    portions: (least: number, most: number) => (least === most ? String(most) : `up to ${most}`),
    grams: (grams: number | null) => (grams === null ? "\u2013" : `${figure(grams)}${nb}g`),
    noPortion: "The plan names no portion, so grams are not known.",
    warmUp: (what: string) => `Warm-up: ${what.trim()}`,
    cups: (coded: number, references: number, mark: string, warmUps: number, lidded: boolean) =>
      [
        `${plural(coded, "cup", "cups")} with ${lidded ? "lid and code" : "a code"}`,
        ...(references > 0 ? [`${plural(references, "cup", "cups")} marked ${mark}`] : []),
        ...(warmUps > 0 ? [`${plural(warmUps, "cup", "cups")} for the warm-up`] : []),
      ].join(", "),
    vessel: "Vessels",
    rinse: "Rinse water",
    rinseAre: (cups: number, grams: number) => `${cups} \u00d7 ${figure(grams)}${nb}g, each weighed out`,
    balance: "Weighing",
    balanceIs: (step: string) =>
      `one balance that reads ${step === "" ? "0.01" : step}${nb}g, gloves, a lined pan away from food`,
    labels: "Labels and cards",
    labelsAre: (labels: number, cards: number) =>
      `${plural(labels, "label", "labels")}, ${plural(cards, "tray card", "tray cards")}`,
    cleanser: "Palate",
    cleanserFor: (what: string, people: number) => `${what.trim()}, for ${plural(people, "person", "people")}`,
    times: "Times",
    timesAre: (times: { starts: string; out: number | null; until: number | null; last: number; over: number }) =>
      [
        ...(times.out === null ? [] : [`out of the heat ${at(times.starts, times.out)}`]),
        `first tray ${clockAfter(times.starts, 0) ?? (times.starts || "when the wave begins")}`,
        `last cup about ${at(times.starts, times.last)}`,
        ...(times.until === null ? [] : [`as it should be until ${at(times.starts, times.until)}`]),
        `over about ${at(times.starts, Math.ceil(times.over))}`,
      ].join(", "),
    served: "Served at",
    celsius: (celsius: number) => `${figure(celsius)}${nb}\u00b0C`,
  },
};
