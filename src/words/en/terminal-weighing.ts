import { firstListed } from "./phrases.ts";

/** What the terminal says around weighings. */
export const weighingTerminal = {
  notOfLedger: "left out for a weighing ledger: it has batches, no panel",
  notOfAnswers: "left out here: it belongs to weighings",
  matters: "a number of percentage points above 0 and at most 100, like 4",
  balance: "the smallest step that the balance shows in grams, like 0.1",
  drawn: "yes or no",
  control: (products: readonly string[]) => `a product of the file: ${firstListed(products)}`,
  seconds: "a number of seconds above 0 and at most 600, like 15",
  help: `
A weighing ledger needs no method: it is known by its header. One line a weighing, those of a batch in the order in
which they were taken:

  batch, product, step, grams
                     the first step is the raw mass, the first product what others are compared with. Grams as the
                     balance showed them; left empty: not weighed. Also read: tare (the dish), drip (juice caught on the
                     way to the step), added (liquid added on that way, in grams), minutes (after the heat) and celsius
                     (of the core) when it was weighed, blotted (yes or no), reason (why the mass grew: marinated), lot, and pair (batches
                     of two products with one such name are halves of the same raw material)

  --matters POINTS   smallest difference that matters, in percentage points of the raw mass
  --balance GRAMS    smallest step of the balance (the last digit of the readings)
  --drawn yes|no     was it drawn which raw pieces got which process? (not recorded)
  --confidence SHARE of the intervals (0.95)

Portions that were chewed and weighed (--method chew-and-weigh), one line a portion:

  panelist, product, grams_in, grams_out
                     what went into the mouth and what came back, in grams; also read: repeat, cup (empty) and rinse
                     (water), which are taken off what came back, and seconds (of chewing). Instead of the two masses:
                     gain_percent, worked out elsewhere; below 0 for a loss. With one panelist, portions are the unit

  --control NAME     the product that is an inert portion: shown, and not compared
  --seconds S        how long was to be chewed
  --matters, --balance, --confidence
                     as above; the difference that matters is in percentage points of the portion
`,
};
