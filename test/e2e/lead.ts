import type { Page } from "playwright-core";
import type { Plan } from "../../src/model/plan.ts";
import { organizer } from "../../src/words/en/organizer.ts";
import { dayWords } from "../../src/words/en/organizer-day.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { studiesWords } from "../../src/words/en/organizer-studies.ts";
import { tabletWords } from "../../src/words/en/organizer-tablets.ts";

/** One tray of the kitchen sheet, as the filler reads it: the letter of each code, in serving order. */
export type SheetRow = { tray: number; spare: boolean; cups: { code: string; letter: string }[] };

/** A lead's hands on the laptop's page. What is on the screen is found by its words. */
export class LeadHands {
  readonly page: Page;
  #study = "";
  constructor(page: Page) {
    this.page = page;
  }

  get study(): string {
    return this.#study;
  }

  /** Turns to a study that was begun elsewhere. */
  choose(study: string): void {
    this.#study = study;
  }

  button = (name: string) => this.page.getByRole("button", { name, exact: true });
  heading = (name: string) => this.page.getByRole("heading", { name, exact: true, level: 1 });
  field = (id: string) => this.page.locator(`#${id}`);

  async setUp(address: string, name: string): Promise<void> {
    await this.page.goto(address);
    await this.page.getByLabel(organizer.setup.name).fill(name);
    await this.button(organizer.setup.submit).click();
    await this.heading(studiesWords.emptyHeading).waitFor();
  }

  /** Begins a study and types the whole plan, part by part. */
  async plan(plan: Plan): Promise<void> {
    await this.button(studiesWords.begin).click();
    await this.field("question-title").fill(plan.title);
    this.#study = this.page.url().split("/study/")[1]?.split("/")[0] ?? "";
    await this.field("question-objective").fill(plan.objective);
    await this.field("question-if-yes").fill(plan.ifYes);
    await this.field("question-if-no").fill(plan.ifNo);
    for (const [question, answer] of Object.entries(plan.asked)) {
      if (answer !== null) await this.field(`asked-${question}`).locator(`input[value="${answer}"]`).check();
    }
    await this.next("method");
    await this.method(plan);
    await this.next("people");
    await this.field("people-people").fill(String(plan.people));
    await this.field("people-spares").fill(String(plan.spares));
    await this.next("samples");
    for (const [at, { name, preparation }] of plan.products.entries()) {
      if ((await this.field(`product-${at}-name`).count()) === 0) await this.field("samples-add").click();
      await this.field(`product-${at}-name`).fill(name);
      await this.field(`product-${at}-preparation`).fill(preparation);
    }
    await this.page.getByLabel(planWords.samples.looksOptions[0].label).check();
    const { windowFrom, windowTo } = plan.pace;
    if (windowFrom !== null) await this.field("window-from").fill(String(windowFrom));
    if (windowTo !== null) await this.field("window-to").fill(String(windowTo));
    await this.field("samples-cleanser").fill(plan.serving.cleanser);
    await this.field("samples-pause").fill(String(plan.serving.pauseSeconds));
    if (plan.serving.warmUp !== (await this.field("samples-warm-up").isChecked()))
      await this.field("samples-warm-up").click();
    if (plan.serving.warmUp) await this.field("samples-warm-up-what").fill(plan.serving.warmUpWhat);
    await this.next("serving");
    await this.waves(plan);
    await this.field("serving-server")
      .locator(`input[value=${plan.serverKnowsKey ? "yes" : "no"}]`)
      .check();
    await this.next("safety");
    await this.safety(plan);
  }

  /** The method and its own rules; a triangle is what a new plan has. */
  private async method({ method, noPreference, scale }: Plan): Promise<void> {
    if (method === "triangle") return;
    const choose = (id: string, value: string) => this.field(id).locator(`input[value="${value}"]`).check();
    await choose("method-method", method);
    if (method === "paired-preference") await choose("method-no-preference", noPreference);
    if (method !== "line-scale") return;
    for (const [at, { name, adjective, definition, lowAnchor, highAnchor, moment }] of scale.attributes.entries()) {
      const field = (what: string) => this.field(`attribute-${at}-${what}`);
      if ((await field("name").count()) === 0) await this.field("scale-add").click();
      await field("name").fill(name);
      await field("adjective").fill(adjective);
      await field("definition").fill(definition);
      await field("low-anchor").fill(lowAnchor);
      await field("high-anchor").fill(highAnchor);
      await choose(`attribute-${at}-moment`, moment.at);
      if (moment.at === "after") await field("moment-seconds").fill(String(moment.seconds));
    }
  }

  async waves(plan: Plan): Promise<void> {
    for (const [at, wave] of plan.waves.entries()) {
      if ((await this.field(`wave-${at}-starts`).count()) === 0) await this.field("serving-add").click();
      await this.field(`wave-${at}-starts`).fill(wave.starts);
      await this.field(`wave-${at}-people`).fill(String(wave.people));
      for (const [place, { id }] of plan.products.entries()) {
        await this.field(`wave-${at}-batch-${place}`).fill((wave.batches[id] ?? []).join(", "));
      }
    }
  }

  /** Declares everything, ticks egg for the first, cooks poultry, reads the cautions that apply, and says what people are told. */
  async safety(plan: Plan): Promise<void> {
    await this.field("safety-carrier").locator("input[value=no]").check();
    const declare = this.page.getByRole("button", { name: /^Declare / });
    while ((await declare.count()) > 0) await declare.first().click();
    const lists = this.page.locator("details.declared:has(.allergens)");
    for (let at = 0; at < (await lists.count()); at++) {
      const list = lists.nth(at);
      if ((await list.getAttribute("open")) === null) await list.locator("summary").click();
      if (at === 0) await list.getByRole("row", { name: /^egg/ }).getByRole("checkbox").first().check();
      else await list.getByRole("checkbox", { name: /^Contains none of these/ }).check();
    }
    await this.field("safety-complete").check();
    await this.page.getByRole("checkbox", { name: /^Poultry/ }).check();
    const read = this.page.getByLabel(planWords.safety.read);
    for (let at = 0; at < plan.cautionsRead.length; at++) await read.nth(at).check();
    await this.field("safety-served").fill(plan.served);
    await this.field("safety-contact").fill(plan.contact);
  }

  private async next(part: keyof typeof planWords.parts): Promise<void> {
    await this.button(`${planWords.nextPart}: ${planWords.parts[part]}`).click();
  }

  /** Locks, takes the passphrase down, and shows that it was. */
  async lock(see: (state: string) => Promise<void> = async () => {}): Promise<string> {
    const word = this.page.getByLabel(lockWords.gate.type(lockWords.lock.word));
    const toLock = this.button(planWords.toLock);
    // on a busy machine the page still grows while the press is under way, and the press can land beside the button
    for (let tries = 0; tries < 3 && !(await word.isVisible()); tries++) {
      if ((await toLock.count()) > 0) await toLock.click();
      await word.waitFor({ timeout: 10_000 }).catch(() => undefined);
    }
    await word.fill(lockWords.lock.word);
    await this.button(lockWords.lock.action).click();
    await this.heading(lockWords.once.heading).waitFor();
    await see("passphrase");
    const words = await this.page
      .getByRole("list", { name: lockWords.once.words })
      .getByRole("listitem")
      .allInnerTexts();
    await this.page.getByLabel(lockWords.once.first).fill(words[0] ?? "");
    await this.page.getByLabel(lockWords.once.last).fill(words.at(-1) ?? "");
    await this.button(lockWords.once.submit).click();
    return words.join(" ");
  }

  /** The kitchen sheet by tray, read off the page as the filler would read the print. */
  async kitchenSheet(): Promise<SheetRow[]> {
    await this.go("papers/kitchen-by-tray");
    const rows = this.page.locator("table.by-tray tbody tr");
    await rows.first().waitFor();
    return rows.evaluateAll((lines) =>
      lines.map((line) => ({
        tray: Number((line.querySelector("th")?.textContent ?? "").split("-")[0]),
        spare: line.querySelector("th .small-print") !== null,
        cups: [...line.querySelectorAll(".cup")].map((cup) => ({
          letter: cup.querySelector(".product-letter")?.textContent ?? "",
          code: (cup.querySelector(".code .unseen")?.textContent ?? "").replaceAll(" ", ""),
        })),
      })),
    );
  }

  async tabletCode(name: string): Promise<string> {
    await this.page.goto(`${this.page.url().split("#")[0]}#/devices`);
    await this.page.getByLabel(tabletWords.make.name).fill(name);
    await this.button(tabletWords.make.submit).click();
    const code = ((await this.page.locator(".big-code").textContent()) ?? "").trim();
    await this.button(tabletWords.code.done).click();
    return code;
  }

  async go(step: string): Promise<void> {
    const address = `${this.page.url().split("#")[0]}#/study/${this.#study}${step === "" ? "" : `/${step}`}`;
    await this.page.goto(address);
  }

  /** Waits until the day's page says so many trays are answered. */
  async answered(count: number, planned: number): Promise<void> {
    await this.go("");
    await this.page.getByText(dayWords.answered(count, planned)).waitFor({ timeout: 60_000 });
  }

  async close(): Promise<void> {
    await this.go("close");
    await this.page.getByLabel(lockWords.gate.type(lockWords.close.word)).fill(lockWords.close.word);
    await this.button(lockWords.close.action).click();
    await this.page.getByRole("link", { name: dayWords.actions.open }).or(this.button(dayWords.actions.open)).waitFor();
  }

  async openKey(passphrase: string): Promise<void> {
    await this.go("open");
    await this.field("open-passphrase").fill(passphrase);
    await this.page.getByLabel(lockWords.gate.type(lockWords.open.word)).fill(lockWords.open.word);
    await this.button(lockWords.open.action).click();
  }
}
