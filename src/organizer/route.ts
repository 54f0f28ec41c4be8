import { type Paper, papers } from "../model/event.ts";

/** Steps of a study that have a page of their own, so that the way back works and a phone has room. */
export const steps = [
  "lock",
  "rehearse",
  "shopping",
  "void",
  "spare",
  "settle",
  "admit",
  "look",
  "weigh",
  "masses",
  "close",
  "open",
] as const;
export type Step = (typeof steps)[number];

/** Pages of the day that are about one wave or one tray. */
const daySteps = ["reading", "batch", "tray"] as const;
export type DayStep = (typeof daySteps)[number];

export type Route =
  | { page: "studies" }
  | { page: "claims" }
  | { page: "claim"; id: string }
  | { page: "devices" }
  /** What this kitchen usually does. */
  | { page: "kitchen" }
  | { page: "setup"; code: string }
  /** This browser, which the server does not know any more. */
  | { page: "again" }
  /** `field`: the control of the plan page to go to. */
  | { page: "study"; id: string; field?: string }
  | { page: "step"; id: string; step: Step }
  | { page: "day-step"; id: string; step: DayStep; of: number }
  | { page: "papers"; id: string; paper: Paper | null }
  | { page: "unknown" };

const isStep = (text: string): text is Step => (steps as readonly string[]).includes(text);
const isDayStep = (text: string): text is DayStep => (daySteps as readonly string[]).includes(text);
const isPaper = (text: string): text is Paper => (papers as readonly string[]).includes(text);

/**
 * Reads the part of an address after "#".
 * Returns the page it names; "unknown" for anything else, "studies" for an empty one.
 */
export function readRoute(hash: string): Route {
  const text = hash.replace(/^#/, "");
  if (text.startsWith("setup=")) return { page: "setup", code: text.slice("setup=".length) };
  const [first = "", id = "", what = "", which = "", ...rest] = text.split("/").filter((part) => part !== "");
  if (first === "" && id === "") return { page: "studies" };
  if (first === "claims" && id === "") return { page: "claims" };
  if (first === "claim" && id !== "" && what === "") return { page: "claim", id };
  if (first === "devices" && id === "") return { page: "devices" };
  if (first === "kitchen" && id === "") return { page: "kitchen" };
  if (first === "again" && id === "") return { page: "again" };
  if (first !== "study" || id === "" || rest.length > 0) return { page: "unknown" };
  if (what === "") return { page: "study", id };
  if (what === "field" && which !== "") return { page: "study", id, field: which };
  if (what === "papers" && which === "") return { page: "papers", id, paper: null };
  if (what === "papers" && isPaper(which)) return { page: "papers", id, paper: which };
  if (isDayStep(what) && /^\d{1,4}$/.test(which)) return { page: "day-step", id, step: what, of: Number(which) };
  if (isStep(what) && which === "") return { page: "step", id, step: what };
  return { page: "unknown" };
}

export const studiesAddress = "#/";
export const claimsAddress = "#/claims";
export const claimAddress = (id: string): string => `#/claim/${id}`;
export const devicesAddress = "#/devices";
export const kitchenAddress = "#/kitchen";
export const againAddress = "#/again";
export const studyAddress = (id: string): string => `#/study/${id}`;
export const fieldAddress = (id: string, field: string): string => `#/study/${id}/field/${field}`;
export const stepAddress = (id: string, step: Step): string => `#/study/${id}/${step}`;
/** `of`: the number of a wave, or of a tray. */
export const dayStepAddress = (id: string, step: DayStep, of: number): string => `#/study/${id}/${step}/${of}`;
export const papersAddress = (id: string, paper?: Paper): string =>
  paper === undefined ? `#/study/${id}/papers` : `#/study/${id}/papers/${paper}`;
/** The result is a page of another entry. */
export const reportAddress = (id: string): string => `/report/?study=${id}`;
