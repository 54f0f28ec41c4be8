/** What the page says on which a tablet is enrolled: loaded with it. */
export const panelEnroll = {
  title: "Enroll this tablet",
  lead: "Ask the lead for a one-time code. It is valid for ten minutes.",
  before: "This tablet was enrolled before, and its storage has been cleared since. Tell the lead, then go on here.",
  code: "One-time code",
  codeHint: "Eight characters, such as K7QM-4XTP",
  name: "Name of this tablet",
  nameHint: "What the lead will see, such as Booth 3. Left empty, it is the name that the lead gave.",
  go: "Enroll",
  codeMissing: "Please type the code first.",
  wrongRole: "This code is not for a tablet in a booth. Ask the lead for a tablet code.",
  cancel: "Not now",
};
