/** Words of the plan for what people are told before they agree to take part. */
export const organizerConsent = {
  heading: "What people agree to",
  lead: "Before the first sample each tablet tells what this is, and asks whether somebody takes part. Whoever would rather not stops, and nobody asks why. The log keeps which text was agreed to.",
  served: "What do you tell people that they will taste?",
  servedHint: "The food, never what differs: \u201cmeatballs\u201d.",
  names: (product: string) =>
    `This names the product \u201c${product}\u201d. Does it tell anybody what is compared? If so, say it more plainly.`,
  contact: "Whom can people turn to?",
  contactHint: "Name and place, or a telephone number. For questions now and later.",
  preview: "What the tablets will say",
};
