import { nbsp, shortNumber, wholeNumber } from "../number.ts";

/** Small parts that several pages of the reader's words share. */
export const times = "\u00d7";
export const minus = "\u2212";

export const number = (value: number): string => shortNumber(value).replace("-", minus);
export const plural = (count: number, one: string, many: string): string =>
  `${wholeNumber(count)}${nbsp}${count === 1 ? one : many}`;
export const listed = (items: readonly (number | string)[]): string =>
  items.length < 2 ? items.join() : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;

/** Days and times as the device at hand shows them, in its own time zone. */
export const day = (instant: string): string => new Date(instant).toLocaleDateString("en-US", { dateStyle: "medium" });
export const clock = (instant: string): string =>
  new Date(instant).toLocaleTimeString("en-US", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
export const dayAndTime = (instant: string): string => `${day(instant)}, ${clock(instant)}`;

export const grouped = (hash: string): string => (hash.slice(0, 12).match(/.{4}/g) ?? []).join(nbsp);
