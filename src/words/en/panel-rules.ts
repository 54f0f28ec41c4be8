import type { BlindPacket } from "../../model/packet.ts";
import { duration, rinsing } from "./panel.ts";

const swallow: Record<BlindPacket["swallow"], string> = {
  swallow: "Swallow each sample.",
  spit: "Do not swallow. Spit each sample into your own lidded cup.",
  either: "Swallow each sample or spit it into your own lidded cup, as you like.",
};

/** How to taste, line by line, before the first sample. */
export const panelRules = {
  alone: "Please work alone and do not talk about the samples.",
  warmUp: "Taste the warm-up sample first: the one without a code. There is no question about it.",
  /** Where a cup with a letter has no code either. */
  warmUpUnmarked: "Taste the warm-up sample first: the one without a mark. There is no question about it.",
  rinse: (cleanser: string) => rinsing("Clear your palate now", cleanser),
  order: "Taste in the order shown.",
  orderAfter: {
    R: "Taste the reference first: it is marked R. Then taste the coded samples in the order shown.",
    A: "Taste the sample marked A first. Then taste the one with a code.",
  },
  orderOnLine: "Take the samples in the order shown, one after the other; each has its questions.",
  swallow,
  pause: (seconds: number) =>
    seconds > 0
      ? `Between samples, rinse again and wait ${duration(seconds)}. The tablet says when to go on.`
      : "Between samples, rinse again.",
  retaste: "Before you answer you may taste again, in the same order, rinsing in between.",
  retasteOnLine: "You may take more bites of the sample at hand; never go back to an earlier one.",
  noRetaste: "Taste each sample once only.",
  stop: "You may stop at any time without giving a reason.",
  stored: "Your answer is kept under the tray number, without your name.",
  storedOnLine: "Your answers are kept under the tray number, without your name.",
};
