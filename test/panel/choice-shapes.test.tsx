// @vitest-environment happy-dom
import { fireEvent, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { BlindPacket } from "../../src/model/packet.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { choiceAnswers, choiceQuestions, panelChoice } from "../../src/words/en/panel-choice.ts";
import { button, heading, newTablet, putAway, spoken, start, type } from "./hands.tsx";
import { packet, study, type Tablet } from "./tablet.ts";

let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(() => putAway(tablet));

const property = (place: number, comparative: string, definition: string) => ({
  id: `7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b0${place}`,
  comparative,
  definition,
});
const four = ["482", "715", "309", "614"];
const ends = { least: "least juicy", most: "most juicy", definition: "Juice felt in the mouth while chewing." };

/** From rest to the first question, with the lettered cup first where there is one. */
async function toQuestion(method: BlindPacket["method"], codes: string[], change: Partial<BlindPacket> = {}) {
  const trays = packet.trays.map((tray) => (tray.tray === 17 ? { ...tray, codes } : tray));
  await start(tablet, { method, wording: `${method}-1`, trays, ...change });
  type("17-4");
  fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
  fireEvent.click(await screen.findByRole("button", { name: words.rules.go }));
  const cups = change.reference ? [change.reference, ...codes] : codes;
  for (const cup of cups) {
    fireEvent.click(await screen.findByRole("button", { name: new RegExp(`${spoken(cup)}.*${words.tasting.next}`) }));
    tablet.clock.pass(45_000);
  }
  await heading(choiceQuestions(`${method}-1`, change.properties ?? [], change.ranking)[0] ?? "");
}
const values = () => screen.getAllByRole("radio").map((radio) => (radio as HTMLInputElement).value);
const kept = async () =>
  (await tablet.store.ownFacts({ kind: "study", id: study })).flatMap((fact) =>
    fact.kind === "answer-kept" && !fact.outline ? [[fact.body.question, fact.body.choice]] : [],
  );

test("duo-trio: the reference is no answer; what is kept is a code", async () => {
  await toQuestion("duo-trio", ["317", "530"], { reference: "R" });
  expect(values()).toEqual(["317", "530"]);
  expect(screen.getByText(panelChoice.reference).closest("label, button")).toBeNull();
  fireEvent.click(screen.getByRole("radio", { name: spoken("530") }));
  fireEvent.click(button(words.question.keep));
  await heading(words.remark.title);
  expect(await kept()).toEqual([[1, "530"]]);
});

test("a code touched before the reference is out of turn", async () => {
  const trays = packet.trays.map((tray) => ({ ...tray, codes: ["317", "530"] }));
  await start(tablet, { method: "duo-trio", wording: "duo-trio-1", reference: "R", trays });
  type("17-4");
  fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
  fireEvent.click(await screen.findByRole("button", { name: words.rules.go }));
  fireEvent.click(await screen.findByRole("button", { name: new RegExp(spoken("317")) }));
  expect((await screen.findByRole("alert")).textContent).toContain("next is R");
  fireEvent.click(button(words.tasting.differ));
  await screen.findByText(words.differ.withReference("R"));
});

test.each([
  ["same-different", ["317", "530"], {}, ["same", "different"], choiceAnswers.different],
  ["a-not-a", ["317"], { reference: "A" }, ["a", "not-a"], choiceAnswers["not-a"]],
] as const)("%s: two equal fields in words, and no box for guessing", async (method, codes, change, answers, press) => {
  await toQuestion(method, [...codes], change);
  expect(values()).toEqual(answers);
  expect(screen.queryByRole("checkbox")).toBeNull();
  fireEvent.click(screen.getByRole("radio", { name: press }));
  fireEvent.click(button(words.question.keep));
  await heading(words.remark.title);
  expect(await kept()).toEqual([[1, answers[1]]]);
});

test("several properties: one after the other, each final, and the next open one after the tablet was covered", async () => {
  const properties = [property(1, "juicier", "Juice felt in the mouth."), property(2, "firmer", "")];
  await toQuestion("paired-difference", ["317", "530"], { properties });
  const [juicier = "", firmer = ""] = choiceQuestions("paired-difference-1", properties);
  await heading(juicier);
  expect(screen.getByText(panelChoice.place(1, 2))).toBeTruthy();
  expect(screen.getByText("Juice felt in the mouth.").closest("details")?.open).toBe(false);
  fireEvent.click(screen.getByRole("radio", { name: spoken("530") }));
  fireEvent.click(button(words.question.keep));
  await heading(firmer);
  expect(document.querySelector("details")).toBeNull();
  expect(screen.getAllByRole<HTMLInputElement>("radio").some(({ checked }) => checked)).toBe(false);
  tablet.clock.pass(6 * 60_000);
  await heading(words.rest.title);
  type("17-4");
  await heading(firmer);
  fireEvent.click(screen.getByRole("radio", { name: spoken("317") }));
  fireEvent.click(button(words.question.keep));
  await heading(words.remark.title);
  expect(await kept()).toEqual([
    [1, "530"],
    [2, "317"],
  ]);
});

test("tetrad: said aloud, kept as the first code's partner, half a pair kept nowhere, and there again when covered", async () => {
  await toQuestion("tetrad", four);
  const sample = (code: string) => button(new RegExp(`^${spoken(code)}`));
  fireEvent.click(sample("309"));
  await waitFor(() => expect(sample("309").getAttribute("aria-pressed")).toBe("true"));
  fireEvent.click(button(words.question.keep));
  await screen.findByText(panelChoice.pairs.pairFirst);
  tablet.clock.pass(6 * 60_000);
  await heading(words.rest.title);
  type("17-4");
  await heading(choiceQuestions("tetrad-1", [])[0] ?? "");
  expect(sample("309").getAttribute("aria-pressed")).toBe("true");
  fireEvent.click(sample("614"));
  const said = panelChoice.pairs.together(["482", "715"].map(spoken), ["309", "614"].map(spoken));
  await screen.findByText(said);
  fireEvent.click(button(panelChoice.pairs.swap));
  await screen.findByText(panelChoice.pairs.together(["482", "309"].map(spoken), ["715", "614"].map(spoken)));
  sample("482").focus();
  fireEvent.keyDown(sample("482"), { key: "ArrowLeft" });
  expect(document.activeElement).toBe(sample("614"));
  fireEvent.click(button(words.question.keep));
  await heading(words.remark.title);
  expect(await kept()).toEqual([[1, "309"]]);
});

const { ranking } = panelChoice;
const sample = (code: string) => button(new RegExp(`^${spoken(code)}`));
const places = () => within(screen.getByRole("list", { name: ranking.order })).getAllByRole("listitem");

test("ranking: the first touch is the least; said aloud, and all codes are kept, least first", async () => {
  await toQuestion("ranking", four, { ranking: ends });
  expect(screen.getByText(ends.definition).closest("details")?.open).toBe(false);
  expect(screen.queryByRole("checkbox")).toBeNull();
  fireEvent.click(sample("309"));
  await screen.findByText(ranking.stands(spoken("309"), "first", 3));
  for (const code of ["614", "482"]) fireEvent.click(sample(code));
  await waitFor(() => expect(places()[2]?.textContent).toContain("482"));
  fireEvent.click(button(words.question.keep));
  await screen.findByText(ranking.placeFirst);
  fireEvent.click(sample("715"));
  await screen.findByText(ranking.complete(["309", "614", "482", "715"].map(spoken)));
  fireEvent.click(button(words.question.keep));
  await heading(words.remark.title);
  expect(await kept()).toEqual([[1, "309 614 482 715"]]);
});

test("ranking: the last is taken back, a touch takes one out, all of it starts over; the focus stays where it was", async () => {
  await toQuestion("ranking", four, { ranking: ends });
  const taken = () => four.filter((code) => sample(code).getAttribute("aria-pressed") === "true");
  for (const code of ["309", "614", "482"]) fireEvent.click(sample(code));
  await waitFor(() => expect(taken()).toEqual(["482", "309", "614"]));
  const undo = button(ranking.undo);
  undo.focus();
  fireEvent.click(undo);
  await screen.findByText(ranking.stands(spoken("614"), "second", 2));
  expect(document.activeElement).toBe(undo);
  sample("309").focus();
  fireEvent.click(sample("309"));
  await screen.findByText(ranking.stands(spoken("614"), "first", 3));
  expect(document.activeElement).toBe(sample("309"));
  fireEvent.keyDown(sample("309"), { key: "ArrowRight" });
  expect(document.activeElement).toBe(sample("614"));
  fireEvent.click(button(ranking.clear));
  await screen.findByText(ranking.none);
  expect([taken(), undo.getAttribute("aria-disabled")]).toEqual([[], "true"]);
  expect(places().map(({ textContent }) => textContent?.includes(ranking.free))).toEqual([true, true, true, true]);
});

test("ranking: what was put in order so far is there again after the tablet was covered, and is kept nowhere", async () => {
  await toQuestion("ranking", four, { ranking: ends });
  for (const code of ["614", "309"]) fireEvent.click(sample(code));
  await screen.findByText(ranking.stands(spoken("309"), "second", 2));
  tablet.clock.pass(6 * 60_000);
  await heading(words.rest.title);
  expect(await kept()).toEqual([]);
  type("17-4");
  await heading(choiceQuestions("ranking-1", [], ends)[0] ?? "");
  expect(places().map(({ textContent }) => textContent?.match(/\d{3}$/)?.[0] ?? null)).toEqual([
    "614",
    "309",
    null,
    null,
  ]);
});
