import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { App } from "../../src/panel/app.tsx";
import type { AppParts } from "../../src/panel/parts.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { choiceQuestions } from "../../src/words/en/panel-choice.ts";
import { emptyDisk, packet, Tablet } from "./tablet.ts";

/** Hands on a tablet's page in a DOM without a browser. Everything is found by the words on the screen. */
export const button = (name: string | RegExp): HTMLElement => screen.getByRole("button", { name });
export const heading = (name: string): Promise<HTMLElement> => screen.findByRole("heading", { name });
export const spoken = (code: string | undefined): string => [...(code ?? "")].join(" ");
export const ask = choiceQuestions("triangle-1", [])[0] ?? "";
export const codes = packet.trays[16]?.codes ?? [];

/** A tablet that was never switched on, for each test. */
export function newTablet(): Tablet {
  emptyDisk();
  window.scrollTo = () => {};
  // this DOM names locks but has none; one window needs no more than being let through
  const locks = { request: async (_name: string, _options: unknown, work: (lock: object) => unknown) => work({}) };
  Object.defineProperty(navigator, "locks", { value: locks, configurable: true });
  return new Tablet();
}

export async function putAway(tablet: Tablet): Promise<void> {
  cleanup();
  await tablet.store.close();
}

export function show(tablet: Tablet, change: Partial<AppParts> = {}): void {
  render(<App parts={{ ...tablet.parts, ...change }} />);
}

/** An enrolled tablet with its packet, at rest. */
export async function start(tablet: Tablet, change: Partial<typeof packet> = {}): Promise<void> {
  await tablet.ready(change);
  show(tablet);
  await heading(words.rest.title);
}

export function type(label: string): void {
  for (const digit of label.replace("-", "")) fireEvent.click(button(digit));
  fireEvent.click(button(words.rest.open));
}

/** From rest to the question of a tray. */
export async function toQuestion(tablet: Tablet, label = "17-4", of = codes): Promise<void> {
  type(label);
  await heading(words.clearance.title);
  fireEvent.click(button(words.clearance.clear));
  await heading(words.rules.title);
  fireEvent.click(button(words.rules.go));
  await heading(words.tasting.title);
  for (const code of of) {
    fireEvent.click(await screen.findByRole("button", { name: new RegExp(`${spoken(code)}.*${words.tasting.next}`) }));
    tablet.clock.pass(45_000);
  }
  await heading(ask);
}
