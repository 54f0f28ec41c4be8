/** Words of a call for somebody, and of the notice while tasting is stopped; loaded after the first screen. */
export const panelHelp = {
  call: "Call somebody to me",
  calling: "Calling\u2026",
  called: "Somebody was called. If nobody comes, raise your hand.",
  notSent: "The call could not be sent. Please raise your hand.",
  takeBack: "Nobody is needed any more",
  halted: {
    title: "Please stop tasting.",
    lines: ["Somebody will come to you.", "What you have answered is kept."],
  },
};
