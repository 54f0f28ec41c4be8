import type { Page } from "playwright-core";
import type { Plan } from "../../../src/model/plan.ts";
import { panel as words } from "../../../src/words/en/panel.ts";
import { readyPlan } from "../../design/scenario.ts";
import type { ApiLead } from "../../e2e/study-by-api.ts";
import { TabletHands } from "../../e2e/tablet.ts";
import { Finger, type Tap } from "./finger.ts";
import { probe } from "./probe.ts";

const seatsAWave = 50;

/** A plan for at least so many trays, in waves small enough for codes of their own. */
export function planFor(trays: number): Plan {
  const plan = readyPlan();
  const [wave] = plan.waves;
  if (!wave) throw new Error("the plan has no wave");
  const waves = Array.from({ length: Math.ceil(trays / seatsAWave) }, (_, at) => ({
    ...wave,
    id: `11111111-2222-4333-8444-${String(at).padStart(12, "0")}`,
    people: seatsAWave,
    batches: Object.fromEntries(plan.products.map(({ id }) => [id, ["1"]])),
  }));
  const people = waves.length * seatsAWave;
  return { ...plan, people, spares: 0, waves, serving: { ...plan.serving, pauseSeconds: 0 } };
}

/** One tablet on which one person after the other answers. */
export class Booth {
  readonly #hands: TabletHands;
  readonly #finger: Finger;
  readonly #lead: ApiLead;
  #tray = 0;

  private constructor(hands: TabletHands, finger: Finger, lead: ApiLead) {
    this.#hands = hands;
    this.#finger = finger;
    this.#lead = lead;
  }

  static async open(page: Page, rate: number, lead: ApiLead, origin: string): Promise<Booth> {
    await page.addInitScript(probe, words.remark.title);
    const hands = new TabletHands(page);
    await hands.enroll(origin, await lead.tabletCode("Booth 1"), "Booth 1");
    await hands.offlineReady();
    return new Booth(hands, await Finger.on(page, rate), lead);
  }

  toFront = (): Promise<void> => this.#hands.page.bringToFront();

  /** A whole tray by the screens, of which the tap on Keep is measured. */
  async keep(): Promise<Tap> {
    this.#tray += 1;
    const hands = this.#hands;
    const { codes = [] } = this.#lead.trays.blind.find(({ tray }) => tray === this.#tray) ?? {};
    await hands.taste(this.#tray, codes);
    await hands.pick(codes[1] ?? "");
    const tap = await this.#finger.tap(hands.button(words.question.keep));
    await hands.finish();
    await hands.button(words.nextPerson).click();
    return tap;
  }

  /** Answers one tray and returns the record of the answer as it stands in the tablet's database. */
  async firstRecord(): Promise<Record<string, unknown>> {
    await this.keep();
    const record = await this.#hands.page.evaluate(answerRecord);
    if (!record) throw new Error("the tablet holds no answer");
    return record;
  }
}

/** Runs in the page. */
function answerRecord(): Promise<Record<string, unknown> | undefined> {
  return new Promise((done, failed) => {
    const open = indexedDB.open("cloche-panel");
    open.onerror = () => failed(open.error);
    open.onsuccess = () => {
      const all = open.result.transaction("events").objectStore("events").getAll();
      all.onsuccess = () => {
        open.result.close();
        const rows = all.result as (Record<string, unknown> & { text: string })[];
        done(rows.find(({ text }) => text.includes('"kind":"answer-kept"')));
      };
    };
  });
}
