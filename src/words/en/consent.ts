import type { BlindPacket } from "../../model/packet.ts";

/**
 * The page on which people agree to take part, before everything else. Neutral: it tells of no difference. It is made at
 * the lock and goes with the packet, so that the log holds every word to which somebody agreed.
 */

type Swallow = BlindPacket["swallow"];
export type ConsentLine = NonNullable<BlindPacket["consent"]>["lines"][number];

/** What the plan says of it. `timed`: a clock or a count runs while somebody chews. */
export type Told = { served: string; contact: string; minutes: number; swallow: Swallow; timed: boolean };

/** What the lead typed, at the end of a sentence; a period of its own is not doubled. */
const typed = (text: string): string => (text.trim() === "" ? "\u2026" : `${text.trim().replace(/\.$/, "")}.`);

const swallowed: Record<Swallow, string> = {
  swallow: "You swallow each sample.",
  spit: "You spit each sample out into a cup of your own.",
  either: "You swallow each sample or spit it out into a cup of your own.",
};
const chewing = "While the tablet counts seconds or chews you may still swallow or spit it out whenever you like.";

/** The page as terms with their sentences, in order. */
export function consentLines({ served, contact, minutes, swallow, timed }: Told): ConsentLine[] {
  return [
    {
      term: "What it is for",
      text: "A kitchen wants to know what people perceive when they taste. What it compares is told afterward, so that nobody tastes with an expectation. The food is tested, not you.",
    },
    {
      term: "What you taste",
      text: [
        `You taste: ${typed(served)}`,
        swallowed[swallow],
        ...(timed ? [chewing] : []),
        "Allergens and cautions come next.",
      ].join(" "),
    },
    { term: "How long it takes", text: `About ${minutes} minutes.` },
    {
      term: "What is kept",
      text: "Your answers and remarks, the times and the size of this screen, under the number of the tray. No name, and nothing about your health. If the staff note who sits where, that list stays apart.",
    },
    {
      term: "Who sees it",
      text: "Whoever leads the study, after the tasting is closed. Readers get the results, without names.",
    },
    {
      term: "Your choice",
      text: "Taking part is up to you. You may stop at any time without giving a reason. What was kept by then stays, under the number of the tray.",
    },
    { term: "Questions", text: contact.trim() },
  ];
}
