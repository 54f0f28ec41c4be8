import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { PairResult } from "../../src/model/result.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { reader } from "../../src/words/en/reader.ts";
import { preferencePlan } from "../design/scenario.ts";
import { LeadHands } from "./lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { TabletHands } from "./tablet.ts";

// A preference from the lead's first word to the report. Of 8 people 7 prefer one product, nobody the other, 1 neither:
// for 7 who chose, Triola's Table A-7 lets none be on the rarer side at 0.05 two-sided (test/reference; printed).

const { folder, remove } = scratch("preference");
const desk = new Machine(join(folder, "lead"), laptop);
const booth = new Machine(join(folder, "tablet"), tablet);
let server: ServerProcess;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
});
afterAll(async () => {
  await desk.close();
  await booth.close();
  await server.end("SIGTERM");
  remove();
});

const votes = [..."BBBBBBB", null];
const plan = (() => {
  const planned = preferencePlan({ people: votes.length, spares: 0 });
  const [first, second] = planned.waves;
  if (!first || !second) throw new Error("two waves");
  return {
    ...planned,
    serving: { ...planned.serving, pauseSeconds: 0 },
    waves: [
      { ...first, people: 5 },
      { ...second, people: 3 },
    ],
  };
})();

test("planned, locked, answered, opened: all three counts, the exact two-sided p, and words for this panel only", {
  timeout: 900_000,
}, async () => {
  const lead = new LeadHands(await (await desk.start()).newPage());
  await lead.setUp(server.setupAddress(), "Odalys Brandt");
  await lead.plan(plan);
  const passphrase = await lead.lock();
  const sheet = await lead.kitchenSheet();
  expect(sheet.map(({ cups }) => cups.length)).toEqual(votes.map(() => 2));

  const hands = new TabletHands(await (await booth.start()).newPage());
  await hands.enroll(server.origin, await lead.tabletCode("Booth A"), "Booth A");
  for (const [at, { tray, cups }] of sheet.entries()) {
    const vote = votes[at];
    await hands.taste(
      tray,
      cups.map(({ code }) => code),
    );
    // whether it was a guess is not asked: nobody is right or wrong
    expect(await hands.page.getByText(words.question.guess).count()).toBe(0);
    if (vote === null) await hands.page.getByText(words.question.noPreference, { exact: true }).click();
    else await hands.pick(cups.find(({ letter }) => letter === vote)?.code ?? "");
    await hands.keep();
    await hands.finish();
    await hands.button(words.nextPerson).click();
  }
  await lead.answered(votes.length, votes.length);
  await lead.close();
  await lead.openKey(passphrase);
  await lead.page.getByText(lockWords.open.done).waitFor();
  await lead.page.getByRole("link", { name: lockWords.open.report }).click();
  await lead.page.locator("h1.verdict").waitFor();

  const result = JSON.parse(readFileSync(await saved(lead, reader.exports.json), "utf8")) as PairResult;
  expect(result).toMatchObject({
    counts: { first: 0, second: 7, none: 1 },
    noPreference: "dropped",
    judgments: 7,
    criticalNumber: 7,
    outcome: "reached",
    departures: [],
  });
  // two tails of 7 of 7 at one half: 2 / 128
  expect(result.pValue).toBeCloseTo(2 / 128, 14);
  const said = (await lead.page.locator("main").textContent()) ?? "";
  expect(said).toContain("7 of 8");
  expect(said).toMatch(/no preference/i);

  const csv = await saved(lead, reader.exports.csv);
  const main = join(import.meta.dirname, "../../dist/rooms/cli/main.js");
  const options = ["result", csv, "--method", "paired-preference", "--none", "drop", "--json"];
  const again = JSON.parse(execFileSync(process.execPath, [main, ...options]).toString()) as PairResult;
  expect(again).toMatchObject({ judgments: 7, criticalNumber: 7, pValue: result.pValue });
  expect([again.counts.first, again.counts.second].toSorted((x, y) => x - y)).toEqual([0, 7]);
});

async function saved(lead: LeadHands, button: string): Promise<string> {
  const [download] = await Promise.all([lead.page.waitForEvent("download"), lead.button(button).click()]);
  const path = join(folder, download.suggestedFilename());
  await download.saveAs(path);
  return path;
}
