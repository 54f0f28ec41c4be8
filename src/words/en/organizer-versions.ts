import { organizer, plural } from "./organizer.ts";

/** Words for versions of a plan that were written without knowing of each other. */
export const versionWords = {
  heading: (count: number) => `This plan was changed on ${plural(count, "device", "devices")} at the same time.`,
  look: "See what differs",
  stands: (name: string, at: string) =>
    `You see the version that was written last: by ${name}, ${organizer.dayAndTime(at)}. Nothing is lost: the others are below, and every version stays in the log.`,
  other: (name: string, at: string) => `The version of ${name}, ${organizer.dayAndTime(at)}`,
  same: "It says the same as what you see.",
  here: "what you see",
  there: "that version",
  take: "take this over",
  takeOf: (label: string) => `: ${label}`,
  taken: (label: string) => `${label}, taken over from the other version.`,
  takeAll: "Use that whole version",
  takeAllOf: (name: string) => `: the one of ${name}`,
  keep: "Keep what you see",
  keepHint: "The plan then has one version again, on every device.",
  lock: "This plan has versions that were written at the same time. Say which one counts before it is locked.",
};
