import type { PortionLeftOut } from "./portion-check.ts";

/** Readings of one portion in grams, as typed: `cup` and `rinse` come off what came back; empty: there was none. */
export type PortionMasses = { gramsIn: string; gramsOut: string; cup: string; rinse: string };

/** A chewed portion of a counted tray, with product and batch by the opened key, and its readings. */
export type ServedPortion = {
  tray: number;
  seat: number;
  wave: number;
  code: string;
  /** Place on the tray, from 1. */
  place: number;
  /** Orders served in the trade's letters. */
  order: string;
  product: string;
  batch: string;
  /** Counts a person's portions of a product, from 1, in the order in which they were served. */
  repeat: number;
  /** To a thousandth: a clock of milliseconds says no more, and a file holds as much. */
  seconds: number | null;
  /** As they stand; empty where one was not taken or is contradicted. */
  readings: PortionMasses;
  /** Null: it counts. */
  leftOut: PortionLeftOut | null;
};
