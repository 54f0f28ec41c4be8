import type { Page } from "playwright-core";
import { planParts } from "../../src/model/open-part.ts";
import { claimWords } from "../../src/words/en/organizer-claims.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { rehearsalWords } from "../../src/words/en/organizer-rehearsal.ts";
import { studiesWords } from "../../src/words/en/organizer-studies.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelChoice } from "../../src/words/en/panel-choice.ts";
import { panelTools as toolWords } from "../../src/words/en/panel-tools.ts";
import { readyPlan } from "../design/scenario.ts";
import type { LeadHands, SheetRow } from "./lead.ts";
import type { TabletHands } from "./tablet.ts";

/** Called at each state of a screen, with a name for it. */
export type Visit = (name: string, page: Page) => Promise<void>;

/** Everything a panelist can see, tray by tray. `codes` gives the codes of a tray in serving order. */
export async function everyTabletState(
  hands: TabletHands,
  codes: (tray: number) => string[],
  visit: Visit,
): Promise<void> {
  const { page } = hands;
  const see = (name: string) => visit(`tablet ${name}`, page);
  await see("at rest");
  await hands.measure(445);
  await see("checked");
  await hands.leaveCheck();
  await hands.button(words.tools.wipe).click();
  await hands.heading(toolWords.wipe.title).waitFor();
  await see("to be wiped");
  for (let presses = 0; presses < 3; presses++) await page.keyboard.press("Enter");
  await page.getByLabel(words.rest.field, { exact: true }).fill("1-1");
  await hands.button(words.rest.open).click();
  await page.getByRole("alert").waitFor();
  await see("wrong check digit");
  await hands.openTray(1);
  await hands.heading(words.consent.title).waitFor();
  await see("consent");
  await hands.agree();
  await see("allergens and cautions");
  await hands.button(words.clearance.clear).click();
  await hands.heading(words.rules.title).waitFor();
  await see("how to taste");
  await hands.button(words.rules.go).click();
  await hands.heading(words.tasting.title).waitFor();
  await see("codes to touch");
  await hands.button(words.tasting.differ).click();
  await hands.heading(words.differ.title).waitFor();
  await see("codes differ");
  await hands.button(words.differ.back).click();
  for (const code of codes(1)) await page.getByRole("button", { name: [...code].join(" ") }).click();
  await page.getByRole("radio").first().waitFor({ state: "attached" });
  await see("question");
  await hands.pick(codes(1)[1] ?? "", true);
  await see("question with a choice");
  await hands.button(words.question.cannot).click();
  await hands.heading(panelChoice.cannot.title).waitFor();
  await see("cannot answer");
  await hands.button(words.goBack).click();
  await hands.keep();
  await see("remark");
  await hands.finish();
  await see("thanks");
  await hands.button(words.nextPerson).click();
  await hands.openTray(2);
  await hands.agree();
  await hands.button(words.clearance.concerned).click();
  await hands.heading(words.stopped["not-cleared"].title).waitFor();
  await see("not cleared");
  await hands.button(words.nextPerson).click();
  await hands.openTray(3);
  await hands.button(words.stopNow).click();
  await hands.heading(words.stopped.stopped.title).waitFor();
  await see("stopped");
  await hands.button(words.nextPerson).click();
}

/** The lead's screens up to the papers of a locked study; returns the passphrase and what the kitchen sheet says. */
export async function everyPlanState(
  lead: LeadHands,
  visit: Visit,
): Promise<{ passphrase: string; sheet: SheetRow[] }> {
  const { page } = lead;
  const see = (name: string) => visit(`lead ${name}`, page);
  await see("no study yet");
  const top = page.url().split("#")[0] ?? "";
  await page.goto(`${top}#/claims`);
  await lead.button(claimWords.begin).waitFor();
  await see("no claim yet");
  await lead.button(claimWords.begin).click();
  await lead.button(claimWords.measure.add).click();
  await page.locator('[id^="measure-"][id$="-name"]').waitFor();
  await see("claim");
  await page.goto(`${top}#/`);
  await lead.heading(studiesWords.emptyHeading).waitFor();
  const plan = readyPlan();
  await lead.plan({ ...plan, serving: { ...plan.serving, pauseSeconds: 0 } });
  await see("plan safety");
  for (const part of planParts) {
    const toggle = page.getByRole("button", { name: new RegExp(`^${planWords.change}.*${planWords.parts[part]}$`) });
    if ((await toggle.count()) > 0) await toggle.click();
    await page.getByRole("button", { name: new RegExp(`^${planWords.done}.*${planWords.parts[part]}$`) }).waitFor();
    await see(`plan ${part}`);
  }
  await lead.go("rehearse");
  await page.getByLabel(rehearsalWords.playsOptions[0].label, { exact: true }).check();
  await page.getByRole("button", { name: rehearsalWords.play, exact: true }).click();
  await page.getByRole("heading", { name: rehearsalWords.results }).waitFor();
  await see("rehearsal");
  await lead.go("lock");
  await lead.heading(lockWords.lock.heading).waitFor();
  await see("lock");
  await lead.go("");
  const passphrase = await lead.lock((at) => see(at));
  await see("papers");
  // read before anything is printed: a second print would ask for the passphrase
  const sheet = await lead.kitchenSheet();
  for (const paper of ["kitchen-by-product", "kitchen-by-tray", "sealed-page", "tray-cards", "labels", "seating"]) {
    await lead.go(`papers/${paper}`);
    await page.locator(".desk").waitFor();
    await see(`paper ${paper}`);
  }
  return { passphrase, sheet };
}
