import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { EnrollReply } from "../../src/model/http.ts";
import { organizer } from "../../src/words/en/organizer.ts";
import { dayWords } from "../../src/words/en/organizer-day.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { lookWords as words } from "../../src/words/en/organizer-look.ts";
import { readyPlan } from "../design/scenario.ts";
import { Pen } from "../server/pen.ts";
import { LeadHands } from "./lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";

// A triangle with looks at 6 and 9 of 12. 4 of 6 comes up by guessing in 0.10, too often for 0.05; 7 of 9 in 0.0083.

const { folder, remove } = scratch("look");
const desk = new Machine(join(folder, "lead"), laptop);
let server: ServerProcess;
let api: ApiLead;
let booth: EnrollReply;
let pen: Pen;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  api = await ApiLead.enroll(server);
  const ready = readyPlan({ people: 12, spares: 0, stopping: { rule: "looks", at: [6, 9] } });
  await api.lock({ ...ready, waves: ready.waves.slice(0, 1) });
  booth = (await api.post("/api/enroll", { code: await api.tabletCode("Booth A"), name: "Booth A" })) as EnrollReply;
  pen = new Pen(booth.device);
});
afterAll(async () => {
  await desk.close();
  await server.end("SIGTERM");
  remove();
});

/** Answers these trays at the booth, right or wrong by the key. */
async function answer(trays: readonly number[], right: boolean): Promise<void> {
  const events = trays.map((tray) => {
    const samples = api.opened.key.trays.find((one) => one.tray === tray)?.samples ?? [];
    const odd = samples.find(({ product }) => samples.filter((one) => one.product === product).length === 1);
    const other = samples.find(({ code }) => code !== odd?.code);
    return pen.answer(api.study, tray, (right ? odd : other)?.code).text;
  });
  await api.post("/api/events", { events, attachments: [], status: null }, booth.token);
}

/** Everything the booth's tablet can ask for, as it comes. */
const atTheBooth = async (): Promise<string> =>
  (await fetch(`${server.origin}/api/panel`, { headers: { authorization: `Bearer ${booth.token}` } })).text();

test("the lead reads go on, and later stop; no number of right answers is on the page, and the tablet is told nothing", {
  timeout: 120_000,
}, async () => {
  const lead = new LeadHands(await (await desk.start()).newPage());
  const { page } = lead;
  await page.goto(`${server.origin}/organizer/#setup=${encodeURIComponent(await api.leadCode("Odalys Brandt"))}`);
  await page.getByLabel(organizer.setup.name).fill("Odalys Brandt");
  await lead.button(organizer.setup.submit).click();
  await page.getByRole("link", { name: readyPlan().title }).waitFor();
  lead.choose(api.study);

  const take = async (look: number): Promise<void> => {
    await lead.go("");
    await page.getByRole("link", { name: words.action(look) }).click();
    await lead.field("open-passphrase").fill(api.passphrase);
    await page.getByLabel(lockWords.gate.type(words.word)).fill(words.word);
    await page.evaluate(() => {
      document.documentElement.dataset.held = "key";
    });
    await lead.button(words.go).click();
    // the page is loaded anew: nothing of the look stays in its memory
    await page.waitForFunction(() => document.documentElement.dataset.held === undefined);
  };
  await answer([1, 2, 3, 4], true);
  await lead.answered(4, 12);
  expect(await page.getByText(words.later(1, 6)).count()).toBe(1);
  expect(await page.getByRole("link", { name: words.action(1) }).count()).toBe(0);
  await answer([5, 6], false);
  const before = await atTheBooth();
  await take(1);
  await page.getByText(words.said["go-on"], { exact: true }).waitFor();
  // every sentence of the page: there is no number but those of answers and looks
  expect(await page.locator("main p").allTextContents()).toEqual([
    dayWords.back,
    words.here(6, 12),
    words.said["go-on"],
    words.goOnMore,
    words.later(2, 9),
  ]);
  expect(await atTheBooth()).toBe(before);

  await answer([7, 8, 9], true);
  await take(2);
  await page.getByText(words.said.stop, { exact: true }).waitFor();
  await lead.go("");
  await page.getByRole("link", { name: words.stopAction }).waitFor();
  await lead.close();
  await page.getByRole("link", { name: dayWords.actions.open }).waitFor();
});
