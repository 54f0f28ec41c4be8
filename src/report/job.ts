import * as z from "zod/mini";
import { plannable } from "../model/method.ts";
import { goals, noPreferenceRules, sidesOf } from "../model/plan.ts";
import type { ProblemData } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { count, id } from "../model/schema.ts";

/** What is asked of a file of answers. Shares from 0 to 1; what the method does not use is left alone. */
const askedOfFile = z.strictObject({
  method: z.enum(plannable),
  goal: z.enum(goals),
  /** Of a paired difference: was one product expected to have more? */
  sides: z.enum(sidesOf),
  alpha: z.number(),
  /** Of the two-sided intervals. */
  confidence: z.number(),
  limit: z.number(),
  /** The limit as a distance; null where it is a share. */
  limitDistance: z.nullable(z.number()),
  beta: z.number(),
  noPreference: z.enum(noPreferenceRules),
  /** Of chewed portions: the inert product (empty: none), points that matter, seconds and balance, as far as they were named. */
  chewed: z.strictObject({
    control: z.string(),
    matters: z.nullable(z.number()),
    seconds: z.nullable(z.number()),
    balanceStep: z.string(),
  }),
});
export type AskedOfFile = z.infer<typeof askedOfFile>;

/** What can be computed beside the page: a plain message, since it goes to a worker. */
export const job = z.discriminatedUnion("job", [
  z.strictObject({
    job: z.literal("study"),
    study: id,
    texts: z.array(z.string()),
    quarantined: count,
    app: z.string(),
  }),
  z.strictObject({ job: z.literal("file"), text: z.string(), path: z.string(), asked: askedOfFile, app: z.string() }),
  z.strictObject({
    job: z.literal("verify"),
    text: z.string(),
    /** As the page shows it: it is only compared. */
    shown: z.custom<Result>((data) => typeof data === "object" && data !== null && "family" in data),
    path: z.string(),
  }),
  z.strictObject({
    job: z.literal("reshuffle"),
    /** One panelist's value for each product; null where there is none. */
    blocks: z.array(z.array(z.nullable(z.number()))),
    products: count,
    times: count,
    seed: z.string(),
  }),
]);
export type Job = z.infer<typeof job>;

/** What a worker sends. The value comes from the same build and is passed on as it is. */
export const answer = z.discriminatedUnion("at", [
  /** `share`: of the work, 0 to 1. */
  z.strictObject({ at: z.literal("under-way"), share: z.number() }),
  /** Of a long list of the value, ahead of it: see `takenOut`. */
  z.strictObject({
    at: z.literal("piece"),
    path: z.array(z.union([z.string(), z.number()])),
    items: z.array(z.unknown()),
  }),
  z.strictObject({ at: z.literal("done"), value: z.unknown() }),
  z.strictObject({
    at: z.literal("failed"),
    problem: z.nullable(z.custom<ProblemData>((data) => typeof data === "object" && data !== null && "code" in data)),
    text: z.string(),
  }),
]);
export type Answer = z.infer<typeof answer>;
