/** Sentences of the report of a blank study. Every cup held one food, so they speak of the study and of no product. */
export const blank = {
  test: (method: string) => `${method}, blank study`,
  chance: "This blank study came out at chance, as it must: every cup held one product.",
  good: "Labels, looks, wording and serving gave nothing away that so many answers would show.",
  found: "This blank study did not come out at chance, though every cup held one product.",
  below: "This blank study came out far below chance, though every cup held one product.",
  luck: "Either something gave cups away, or it was luck: the risk that the plan took holds for blank studies too.",
  look: "Look at labels, places on the tray, looks, temperature, wording and whoever served, and run another blank study.",
  limits:
    "A blank study tries the tasting, not the food. Small hints need more answers to show, and nothing here is about any product.",
};
