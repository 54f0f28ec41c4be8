import type { Page } from "playwright-core";
import { trayLabel } from "../../src/model/tray.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelEnroll } from "../../src/words/en/panel-enroll.ts";
import { panelLine as lineWords } from "../../src/words/en/panel-line.ts";
import { panelTools as toolWords } from "../../src/words/en/panel-tools.ts";

/** A panelist's hands on a tablet's page. Everything is found by the words on the screen. */
export class TabletHands {
  readonly page: Page;
  constructor(page: Page) {
    this.page = page;
  }

  button = (name: string) => this.page.getByRole("button", { name, exact: true });
  heading = (name: string) => this.page.getByRole("heading", { name, exact: true });

  async enroll(origin: string, code: string, name: string): Promise<void> {
    await this.page.goto(`${origin}/panel/`);
    await this.page.getByLabel(panelEnroll.code).fill(code);
    await this.page.getByLabel(panelEnroll.name).fill(name);
    await this.button(panelEnroll.go).click();
    await this.heading(words.rest.title)
      .waitFor()
      .catch(async (thrown: unknown) => {
        // what the tablet said instead is the one thing that explains it
        throw new Error(`not enrolled; the tablet shows: ${await this.page.locator("body").textContent()}`, {
          cause: thrown,
        });
      });
  }

  /** Ready to be used without network: the worker controls the page. */
  async offlineReady(): Promise<void> {
    await this.page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await this.page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  }

  async openTray(tray: number): Promise<void> {
    await this.heading(words.rest.title).waitFor();
    await this.page.getByLabel(words.rest.field, { exact: true }).fill(trayLabel(tray));
    await this.button(words.rest.open).click();
  }

  /** "I take part", on the page that comes first. */
  async agree(): Promise<void> {
    await this.button(words.consent.agree).click();
    await this.heading(words.clearance.title).waitFor();
  }

  /** Up to the question: consent, allergens, rules, the codes touched in order. */
  async taste(tray: number, codes: readonly string[]): Promise<void> {
    await this.openTray(tray);
    await this.agree();
    await this.button(words.clearance.clear).click();
    await this.button(words.rules.go).click();
    for (const code of codes) await this.page.getByRole("button", { name: spoken(code) }).click();
    await this.page.getByRole("radio").first().waitFor({ state: "attached" });
  }

  async pick(code: string, guess = false): Promise<void> {
    await this.page.locator("label.field", { has: this.page.getByRole("radio", { name: spoken(code) }) }).click();
    if (guess) await this.page.getByText(words.question.guess).click();
  }

  async keep(): Promise<void> {
    await this.button(words.question.keep).click();
    await this.heading(words.remark.title).waitFor();
  }

  async finish(remark?: string): Promise<void> {
    if (remark !== undefined) await this.page.getByLabel(words.remark.label).fill(remark);
    await this.button(words.remark.go).click();
    await this.heading(words.thanks.title).waitFor();
  }

  async answer(tray: number, codes: readonly string[], choice: string): Promise<void> {
    await this.taste(tray, codes);
    await this.pick(choice);
    await this.keep();
    await this.finish();
    await this.button(words.nextPerson).click();
    await this.heading(words.rest.title).waitFor();
  }

  /** The staff's check: the bar is made as long as a card that is so many CSS pixels long, and kept. */
  async measure(cardPx: number): Promise<void> {
    const { check } = toolWords;
    await this.button(words.tools.check).click();
    await this.heading(check.title).waitFor();
    const bar = this.page.getByRole("slider", { name: check.line.bar });
    await bar.focus();
    for (;;) {
      const off = cardPx - Number(await bar.getAttribute("aria-valuenow"));
      if (off === 0) break;
      const key = Math.abs(off) >= 10 ? (off > 0 ? "PageUp" : "PageDown") : off > 0 ? "ArrowRight" : "ArrowLeft";
      await this.page.keyboard.press(key);
    }
    await this.button(check.line.matches).click();
    await this.page.getByText(check.line.kept).waitFor();
  }

  async leaveCheck(): Promise<void> {
    await this.button(toolWords.check.back).click();
    await this.heading(words.rest.title).waitFor();
  }

  /** Up to the first sample of a line scale. */
  async compare(tray: number): Promise<void> {
    await this.openTray(tray);
    await this.agree();
    await this.button(words.clearance.clear).click();
    await this.button(words.rules.go).click();
    await this.heading(lineWords.compare.title).waitFor();
    await this.button(lineWords.compare.match).click();
    await this.heading(lineWords.take.title).waitFor();
  }

  /** Touches a code with the first bite of its sample. */
  async bite(code: string): Promise<void> {
    await this.page.getByRole("button", { name: new RegExp(`${spoken(code).source}.*${words.tasting.next}`) }).click();
  }

  /** Waits for a question on the line, marks it by the finger and keeps the mark. */
  async markAndKeep(fraction: number): Promise<void> {
    await this.markAt(fraction);
    await this.button(words.question.keep).click();
  }

  async markAt(fraction: number): Promise<void> {
    const rule = this.page.locator(".scale:not([inert]) .band[data-state=empty] .rule");
    await rule.waitFor({ state: "attached" });
    const box = await rule.boundingBox();
    if (!box) throw new Error("the line is not on the screen");
    await this.page.touchscreen.tap(box.x + fraction * box.width, box.y);
    await this.page.getByRole("slider").waitFor();
  }

  /** Own events in IndexedDB, read past the app: "tray kind sent". */
  async stored(): Promise<string[]> {
    return this.page.evaluate(
      () =>
        new Promise<string[]>((done, fail) => {
          const open = indexedDB.open("cloche-panel");
          open.onerror = () => fail(open.error);
          open.onsuccess = () => {
            const all = open.result.transaction("events").objectStore("events").getAll();
            all.onsuccess = () => {
              open.result.close();
              const rows = all.result as { text: string; sent: string }[];
              done(
                rows.map(({ text, sent }) => {
                  const { body, kind } = JSON.parse(text) as { kind: string; body: { tray: number } };
                  return `${body.tray} ${kind} ${sent}`;
                }),
              );
            };
          };
        }),
    );
  }
}

function spoken(code: string): RegExp {
  if (!/^\d{3}$/.test(code)) throw new Error(`“${code}” is no code`);
  return new RegExp([...code].join(" "));
}
