import type { OpenPart } from "../model/open-part.ts";

/** Where on the plan page an open part is answered. */

/** The field of the plan page that answers an open part: the id of its control. */
export function fieldOf(open: OpenPart): string {
  switch (open.what) {
    case "title":
    case "objective":
    case "if-yes":
    case "if-no":
      return `question-${open.what}`;
    case "goal":
      return "method-goal";
    case "alpha":
      return "method-alpha";
    case "share-sought":
      return "people-share";
    case "distance-sought":
      return "people-distance";
    case "properties":
      return "property-add";
    case "property-field":
      return `property-${open.property}-${open.field}`;
    case "same-property":
      return `property-${open.property}-comparative`;
    case "stopping":
      return "method-stopping";
    case "look-numbers":
      return "method-looks";
    case "blank-norm":
      return "norm-none";
    case "repeats":
    case "repeats-in-blocks":
      return "people-repeats";
    case "reference":
      return "samples-reference";
    case "expected":
      return `samples-expected-${open.property}`;
    case "one-expected":
      return "samples-expected-1";
    case "sessions":
      return "wave-0-session";
    case "people":
    case "too-few-people":
    case "no-critical-number":
      return "people-people";
    case "attributes":
      return "scale-add";
    case "attribute-field":
      return `attribute-${open.attribute}-${open.field}`;
    case "same-attribute":
    case "mixed-clocks":
      return `attribute-${open.attribute}-moment`;
    case "same-anchors":
      return `attribute-${open.attribute}-high-anchor`;
    case "step-label":
      return `attribute-${open.attribute}-step-${open.step}`;
    case "same-labels":
      return `attribute-${open.attribute}-step-0`;
    case "first-just-right":
      return `attribute-${open.attribute}-form`;
    case "just-right-moments":
      return `attribute-${open.attribute}-moment-1`;
    case "ranking-field":
      return `ranking-${open.field}`;
    case "same-ends":
      return "ranking-most";
    case "predicted-order":
      return "ranking-predicted";
    case "balance-step":
    case "tolerance":
      return `chew-${open.what}`;
    case "one-chewer":
      return "people-repeats";
    case "control":
    case "beside-control":
      return "chew-control";
    case "portion":
      return "samples-portion";
    case "products":
      // too many: the first that would have to go
      return open.count > open.most ? `product-${open.most}-remove` : "samples-add";
    case "product-name":
      return `product-${open.product}-name`;
    case "window":
      return "window-to";
    case "blank-preparations":
      return "product-1-preparation";
    case "product-preparation":
      return `product-${open.product}-preparation`;
    case "same-name":
      return `product-${open.product}-name`;
    case "comparison-reference":
      return "comparison-reference";
    case "comparison-pairs":
      return "comparison-add";
    case "comparison-pair":
      return `comparison-${open.pair}-first`;
    case "factor-words":
      return "factor-0-name";
    case "factor-cells":
      return "cell-0-0";
    case "looks":
      return "samples-looks";
    case "masking":
      return "samples-masking";
    case "waves":
      return "serving-add";
    case "wave-start":
      return `wave-${open.wave}-starts`;
    case "wave-people":
      return `wave-${open.wave}-people`;
    case "people-in-session":
    case "people-in-waves":
      return "wave-0-people";
    case "batch":
      return `wave-${open.wave}-batch-${open.product}`;
    case "warm-up":
      return "samples-warm-up-what";
    case "raw-uneven":
      return "raw-divided";
    case "server":
      return "serving-server";
    case "declaration":
      return `declare-${open.of}`;
    case "declarations-complete":
      return "safety-complete";
    case "caution":
      return `caution-${open.caution}`;
    case "carrier":
    case "carrier-what":
    case "cooking-limit":
    case "responsible":
    case "served":
    case "contact":
      return `safety-${open.what}`;
  }
}

/** Open parts that are answered in another part of the page than the one they belong to. */
const movedTo: Partial<Record<OpenPart["what"], OpenPart["part"]>> = {
  "warm-up": "samples",
  "predicted-order": "samples",
  "share-sought": "people",
  "distance-sought": "people",
};

/** The part of the page where an open part is answered: the warm-up, and an order of the products, with the samples. */
export const pagePartOf = (open: OpenPart): OpenPart["part"] => movedTo[open.what] ?? open.part;

/** A name of an open part that no other of the same plan has: for lists. */
export const keyOf = (open: OpenPart): string =>
  `${fieldOf(open)} ${open.what}${open.what === "people-in-session" ? ` ${open.session}` : ""}`;
