// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { knownFacts } from "../../src/device/pull.ts";
import { foldKitchen, type KitchenState } from "../../src/log/kitchen.ts";
import type { Attribute } from "../../src/model/attribute.ts";
import { kitchenStream } from "../../src/model/event.ts";
import type { Kitchen } from "../../src/model/kitchen.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { changeProperty, differences, mostProperties, withProperty } from "../../src/organizer/kitchen-edit.ts";
import { KitchenPage } from "../../src/organizer/kitchen-page.tsx";
import { PropertyPicker } from "../../src/organizer/property-picker.tsx";
import { kitchenWords as words } from "../../src/words/en/organizer-kitchen.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { juiciness, kitchenOf, tenderness } from "../design/kitchen.ts";
import { asLead, device, newLead, now } from "./lead-page.tsx";

const phone = "bbbbbbbb-bbbb-4bbb-8bbb-bbbbbbbbbbbb";
let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

const state = async (): Promise<KitchenState> => foldKitchen(await knownFacts(lead.store, kitchenStream));
async function saved(by: string, kitchen: Kitchen, base: string | null = null): Promise<string> {
  const body = { base, merged: [], kitchen };
  return (await lead.store.append(by, now, { stream: kitchenStream, kind: "kitchen-saved", body })).id;
}
const kept = (): Promise<Kitchen | undefined> => state().then(({ current }) => current?.kitchen);
const field = (name: string) => screen.findByLabelText(name);
const value = (name: string): string => screen.getByLabelText<HTMLInputElement>(name).value;

describe("the page of the kitchen's defaults", () => {
  test("what is typed is kept when the field is left, and is there when the page is opened again", async () => {
    asLead(lead, <KitchenPage />);
    const place = await field(planWords.serving.place);
    expect((await state()).current).toBeNull();
    fireEvent.input(place, { target: { value: "Quillmere Kitchen" } });
    fireEvent.input(await field(planWords.samples.portion), { target: { value: "12,5" } });
    fireEvent.focusOut(place);
    await waitFor(async () => expect(await kept()).toMatchObject({ place: "Quillmere Kitchen" }));
    expect((await kept())?.serving.portionGrams).toBe(12.5);
    cleanup();
    asLead(lead, <KitchenPage />);
    await field(planWords.serving.place);
    expect([value(planWords.serving.place), value(planWords.samples.portion)]).toEqual(["Quillmere Kitchen", "12.5"]);
    expect((await state()).others).toEqual([]);
  });

  test("leaving the page within the moment before writing loses nothing", async () => {
    asLead(lead, <KitchenPage />);
    fireEvent.input(await field(planWords.samples.vessel), { target: { value: "lidded cups" } });
    cleanup();
    await waitFor(async () => expect((await kept())?.serving.vessel).toBe("lidded cups"));
  });

  test("a property is described, kept, taken away and brought back", async () => {
    await saved(device, kitchenOf({ properties: [] }));
    asLead(lead, <KitchenPage />);
    fireEvent.click(await screen.findByRole("button", { name: words.property.add }));
    // letter by letter: what is typed into must stay open
    for (const value of ["J", "Ju", "Juiciness"]) {
      fireEvent.input(await field(words.property.name), { target: { value } });
      await waitFor(() => expect(screen.getByLabelText(words.property.name).closest("details")?.open).toBe(true));
    }
    fireEvent.input(await field(words.property.high), { target: { value: "extremely juicy" } });
    fireEvent.click(screen.getByRole("radio", { name: new RegExp(`^${planWords.scale.moments[1].label}`) }));
    fireEvent.input(await field(planWords.scale.seconds), { target: { value: "15" } });
    const described = { name: "Juiciness", highAnchor: "extremely juicy", moment: { at: "after", seconds: 15 } };
    const listed = async () => (await kept())?.properties;
    fireEvent.click(screen.getByLabelText(words.property.starts));
    fireEvent.focusOut(screen.getByLabelText(words.property.starts));
    await waitFor(async () => expect(await listed()).toMatchObject([{ ...described, starts: true }]));
    fireEvent.click(screen.getByRole("button", { name: words.property.remove("Juiciness") }));
    fireEvent.focusOut(screen.getByRole("button", { name: words.property.add }));
    await waitFor(async () => expect(await listed()).toEqual([]));
    fireEvent.click(screen.getByRole("button", { name: /^Undo: Removed/ }));
    fireEvent.focusOut(screen.getByRole("button", { name: words.property.add }));
    await waitFor(async () => expect(await listed()).toMatchObject([described]));
  });

  test("a version that comes from another lead is shown while nothing here is pending", async () => {
    const first = await saved(device, kitchenOf());
    asLead(lead, <KitchenPage />);
    await field(planWords.serving.place);
    await saved(phone, kitchenOf({ place: "tasting room" }), first);
    await waitFor(() => expect(value(planWords.serving.place)).toBe("tasting room"));
    expect((await state()).others).toEqual([]);
  });
});

describe("two leads who did not know of each other", () => {
  beforeEach(async () => {
    const first = await saved(device, kitchenOf());
    await saved(device, kitchenOf({ place: "north bench" }), first);
    await saved(phone, kitchenOf({ place: "tasting room", avoidCodes: [] }), first);
  });
  const heading = words.versions.heading(2).replaceAll("\u00a0", " ");
  const note = () => screen.findByText(heading);

  test("both versions are named with what differs; typing settles nothing", async () => {
    asLead(lead, <KitchenPage />);
    await note();
    expect(screen.getByText(/It differs in/).textContent).toContain("place and codes to avoid");
    const vessel = await field(planWords.samples.vessel);
    fireEvent.input(vessel, { target: { value: "bowls" } });
    fireEvent.focusOut(vessel);
    await waitFor(async () => expect((await kept())?.serving.vessel).toBe("bowls"));
    expect((await state()).others.map(({ kitchen }) => kitchen.place)).toEqual(["north bench"]);
  });

  test.each([
    ["the other one", words.versions.take, "north bench"],
    ["the one at hand", words.versions.keep, "tasting room"],
  ])("choosing %s settles it, and both stay in the log", async (_which, button, place) => {
    asLead(lead, <KitchenPage />);
    await note();
    fireEvent.click(screen.getByRole("button", { name: new RegExp(`^${button}`) }));
    await waitFor(() => expect(screen.queryByText(heading)).toBeNull());
    const { current, others } = await state();
    expect([current?.kitchen.place, others]).toEqual([place, []]);
    expect(value(planWords.serving.place)).toBe(place);
    expect(await lead.store.ownFacts(kitchenStream)).toHaveLength(4);
  });
});

test("in what two versions differ, whatever order their fields came in", () => {
  const one = kitchenOf();
  const { serving, ...rest } = one;
  expect(differences(one, { ...rest, serving })).toEqual([]);
  const other = changeProperty(kitchenOf({ alpha: 0.05, serving: { ...serving, pauseSeconds: 60 } }), juiciness.id, {
    definition: "Juice.",
  });
  expect(differences(one, other)).toEqual(["pauseSeconds", "alpha", "properties"]);
});

test("a full list of properties takes no more, and nothing of it is lost", () => {
  const list = Array.from({ length: mostProperties }, (_each, at) => ({ ...tenderness, name: `Property ${at}` }));
  const full = kitchenOf({ properties: list });
  expect(withProperty(full, juiciness.id)).toEqual(full);
});

test("a plan picks properties it does not have, each under an id of its own", async () => {
  await saved(device, kitchenOf());
  const picked: Attribute[] = [];
  const { starts: _starts, ...taken } = juiciness;
  asLead(lead, <PropertyPicker taken={[taken]} onPick={(attribute) => picked.push(attribute)} />);
  const button = await screen.findByRole("button");
  expect(button.textContent).toBe(`${words.picker.pick}${words.picker.pickOf("Tenderness")}`);
  fireEvent.click(button);
  const { starts: _again, id, ...said } = tenderness;
  expect(picked).toEqual([{ ...said, inFamily: false, id: expect.not.stringContaining(id) }]);
});
