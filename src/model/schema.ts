import * as z from "zod/mini";
import { problem } from "./problem.ts";

/** Pieces that several schemas share, and the one way to read a value at a border. */
export const id = z.string().check(z.regex(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/, "an id"));
export const hash = z.string().check(z.regex(/^[0-9a-f]{64}$/, "64 hex digits"));
export const hex = z.string().check(z.regex(/^[0-9a-f]+$/, "hex digits"), z.maxLength(4096));
export const instant = z
  .string()
  .check(z.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/, "a time like 2026-05-03T14:02:00.000Z"));
export const code = z.string().check(z.regex(/^[1-9]\d\d$/, "a three-digit code"));
/** All codes of a tray in the order that a panelist gave them, least first. Example: "482 715 903" */
export const codeOrder = z.string().check(z.regex(/^[1-9]\d\d( [1-9]\d\d){1,5}$/, "codes in an order"));
export const count = z.number().check(z.int(), z.minimum(0), z.maximum(100_000));
/** How many of something that only ever grows, or how far along it: a log has no highest position. */
export const whole = z.number().check(z.int(), z.minimum(0));
export const trayNumber = z.number().check(z.int(), z.minimum(1), z.maximum(9999));
/** A line somebody typed; long enough for a paragraph, short enough for a log. */
export const line = z.string().check(z.maxLength(300));
export const paragraph = z.string().check(z.maxLength(4000));

/** Where and what a value fails, in words for a person; `null` when it fits. */
export function misfit(schema: z.ZodMiniType, value: unknown): { where: string; expected: string } | null {
  const parsed = z.safeParse(schema, value);
  if (parsed.success) return null;
  const issue = parsed.error.issues[0];
  return { where: issue?.path.join(".") || "the whole document", expected: expectation(issue) };
}

/**
 * Reads a value at a border.
 * Returns the value as the schema's type; throws Problem "request/invalid", or the problem that `otherwise` makes.
 */
export function read<T>(
  schema: z.ZodMiniType<T>,
  value: unknown,
  otherwise?: (misfit: { where: string; expected: string }) => Error,
): T {
  const parsed = z.safeParse(schema, value);
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0];
  const details = { where: issue?.path.join(".") || "the whole document", expected: expectation(issue) };
  throw otherwise ? otherwise(details) : problem("request/invalid", details);
}

function expectation(issue: z.core.$ZodIssue | undefined): string {
  if (!issue) return "another shape";
  switch (issue.code) {
    case "invalid_type":
      return `a value of type ${issue.expected}`;
    case "invalid_value":
      return `one of ${issue.values.join(", ")}`;
    case "too_small":
      return `at least ${issue.minimum}`;
    case "too_big":
      return `at most ${issue.maximum}`;
    case "unrecognized_keys":
      return `no field named ${issue.keys.join(", ")}`;
    default:
      return issue.message && issue.message !== "Invalid input" ? issue.message : "another value";
  }
}
