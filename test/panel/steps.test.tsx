// @vitest-environment happy-dom
import { fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { Body } from "../../src/model/event.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelLine as lineWords } from "../../src/words/en/panel-line.ts";
import { problems } from "../../src/words/en/problems.ts";
import { button, heading, newTablet, putAway, show, spoken, type } from "./hands.tsx";
import { linePacket, stepsPacket } from "./line-packet.ts";
import { study, type Tablet } from "./tablet.ts";

let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(() => putAway(tablet));

const codes = stepsPacket.trays[16]?.codes ?? [];
const radios = () => screen.getAllByRole("radio") as HTMLInputElement[];
const chosen = () => radios().flatMap(({ checked }, at) => (checked ? [at + 1] : []));
const title = () => screen.getByRole("heading", { level: 1 }).textContent ?? "";
const marks = async (): Promise<Body<"mark-kept">[]> => {
  const facts = await tablet.store.ownFacts({ kind: "study", id: study });
  return facts.flatMap((fact) => (fact.kind === "mark-kept" && !fact.outline ? [fact.body] : []));
};

/** Up to the first question of the first sample, on a tablet that nobody measured. */
async function toQuestion(packet: typeof stepsPacket = stepsPacket): Promise<void> {
  await tablet.ready(packet);
  show(tablet);
  await heading(words.rest.title);
  type("17-4");
  fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
  fireEvent.click(await screen.findByRole("button", { name: words.rules.go }));
  fireEvent.click(await screen.findByRole("button", { name: lineWords.compare.match }));
  fireEvent.click(
    await screen.findByRole("button", { name: new RegExp(`${spoken(codes[0])}.*${words.tasting.next}`) }),
  );
  await waitFor(() => expect(radios().length).toBe(9));
}
async function keep(next: RegExp): Promise<void> {
  fireEvent.click(button(words.question.keep));
  await waitFor(() => {
    tablet.clock.pass(300);
    expect(title()).toMatch(next);
  });
}

test("nine steps of liking: equal choices in the order of the plan, none chosen, and no card check", async () => {
  await toQuestion();
  expect(title()).toContain("How much do you like sample");
  expect(chosen()).toEqual([]);
  expect(screen.getByRole("group", { name: /How much do you like/ }).contains(radios()[0] ?? null)).toBe(true);
  // steps without words are told by their place
  expect(screen.getByRole("radio", { name: lineWords.step(2, 9) })).toBe(radios()[1]);
  expect(screen.getByRole("radio", { name: "like extremely" })).toBe(radios()[8]);
  const off = button(words.question.keep);
  expect(off.getAttribute("aria-disabled")).toBe("true");
  fireEvent.click(off);
  expect(await screen.findByText(lineWords.mark.stepFirst)).toBeTruthy();
});

test("the chosen one says so; another one takes its place; what is kept is the step's place, without a length", async () => {
  await toQuestion();
  fireEvent.click(screen.getByRole("radio", { name: "like" }));
  await waitFor(() => expect(screen.getAllByText(words.question.chosen)).toHaveLength(1));
  fireEvent.click(screen.getByRole("radio", { name: "dislike" }));
  await waitFor(() => expect(chosen()).toEqual([3]));
  await keep(/How do you find the juiciness of sample/);
  // third of nine: two eighths of the way
  expect(await marks()).toMatchObject([
    { question: 1, mark: { fraction: 0.25, start: "pointer", moves: 1 }, why: null, line: null },
  ]);
});

test("a digit chooses its step and takes the focus along; it may be changed until the next sample", async () => {
  await toQuestion();
  fireEvent.keyDown(radios()[0] as HTMLElement, { key: "9" });
  await waitFor(() => expect(chosen()).toEqual([9]));
  expect(document.activeElement).toBe(radios()[8]);
  await keep(/juiciness/);
  fireEvent.click(button(lineWords.mark.back));
  await waitFor(() => expect(chosen()).toEqual([9]));
  fireEvent.keyDown(radios()[8] as HTMLElement, { key: "1" });
  await keep(/juiciness/);
  expect((await marks()).map(({ mark }) => mark?.fraction)).toEqual([1, 0]);
});

test("a digit beyond the last step chooses nothing", async () => {
  await toQuestion();
  fireEvent.keyDown(radios()[0] as HTMLElement, { key: "5" });
  await keep(/juiciness/);
  await waitFor(() => expect(radios().length).toBe(3));
  for (const key of ["4", "0"]) fireEvent.keyDown(radios()[0] as HTMLElement, { key });
  expect(chosen()).toEqual([]);
  fireEvent.keyDown(radios()[0] as HTMLElement, { key: "2" });
  await waitFor(() => expect(chosen()).toEqual([2]));
});

test("what cannot be judged is no step, and a step chosen later replaces that", async () => {
  await toQuestion();
  fireEvent.click(button(lineWords.mark.cannot));
  await heading(lineWords.noMark.title);
  fireEvent.click(screen.getByRole("radio", { name: lineWords.noMark.reasons["not-perceived"] }));
  fireEvent.click(button(lineWords.noMark.keep));
  await screen.findByRole("heading", { name: /juiciness/ });
  fireEvent.click(button(lineWords.mark.back));
  expect(await screen.findByText(lineWords.mark.without)).toBeTruthy();
  expect(chosen()).toEqual([]);
  fireEvent.click(radios()[4] as HTMLElement);
  await keep(/juiciness/);
  expect(await marks()).toMatchObject([
    { mark: null, why: "not-perceived", line: null },
    { mark: { fraction: 0.5 }, why: null, line: null },
  ]);
});

test("steps come at their moment of the chew, too", async () => {
  await toQuestion();
  fireEvent.click(radios()[4] as HTMLElement);
  await keep(/juiciness/);
  fireEvent.click(radios()[1] as HTMLElement);
  await keep(new RegExp(lineWords.chew.title));
  tablet.clock.pass(10_000);
  await screen.findByRole("heading", { name: /^Now.*How juicy is sample.*after 10 seconds/ });
  expect(radios().length).toBe(5);
});

test("one question on a line among steps: the tablet has to be measured", async () => {
  const [liking] = stepsPacket.line.attributes;
  const [, firm] = linePacket.line.attributes;
  if (!liking || !firm) throw new Error("no questions");
  await tablet.ready({ ...stepsPacket, line: { lengthMm: 120, attributes: [liking, firm] } });
  show(tablet);
  await heading(words.rest.title);
  type("17-4");
  expect((await screen.findByRole("alert")).textContent).toBe(problems["tray/no-card-check"]({ lengthMm: 120 }));
});
