import { rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { EventsReply } from "../../src/model/http.ts";
import { organizer } from "../../src/words/en/organizer.ts";
import { studiesWords } from "../../src/words/en/organizer-studies.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelEnroll } from "../../src/words/en/panel-enroll.ts";
import { readyPlan } from "../design/scenario.ts";
import { LeadHands } from "./lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { TabletHands } from "./tablet.ts";

const { folder, remove } = scratch("lost-server");
const data = join(folder, "data");
const machines = [new Machine(join(folder, "lead"), laptop), new Machine(join(folder, "tablet"), tablet)];
let server: ServerProcess;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), data);
  await server.start();
});
afterAll(async () => {
  for (const each of machines) await each.kill();
  await server.end("SIGTERM");
  remove();
});

async function pageOf(machine: Machine | undefined) {
  if (!machine) throw new Error("no such machine");
  return (await machine.start()).newPage();
}

/** What the server holds of the study, asked for with the lead's own token. */
async function held(lead: LeadHands): Promise<string[]> {
  const token = await lead.page.evaluate(
    () =>
      new Promise<string>((done) => {
        const open = indexedDB.open("cloche-lead");
        open.onsuccess = () => {
          const who = open.result.transaction("meta").objectStore("meta").get("identity");
          who.onsuccess = () => {
            open.result.close();
            done(who.result.token);
          };
        };
      }),
  );
  const reply = await fetch(`${server.origin}/api/studies/${lead.study}/events?after=0`, {
    headers: { authorization: `Bearer ${token}` },
  });
  if (reply.status !== 200) return [`status ${reply.status}`];
  const { events } = (await reply.json()) as EventsReply;
  return events
    .map(({ text, outline }) => (outline ?? JSON.parse(text ?? "null")) as { kind: string; body: { tray?: number } })
    .map(({ kind, body }) => (body.tray === undefined ? kind : `${kind} ${body.tray}`))
    .sort();
}

test("D10: the server's data is lost; lead and tablet are set up again and everything they hold is on the new server", {
  timeout: 400_000,
}, async () => {
  const plan = readyPlan();
  const lead = new LeadHands(await pageOf(machines[0]));
  await lead.setUp(server.setupAddress(), "Odalys Brandt");
  await lead.plan({ ...plan, serving: { ...plan.serving, pauseSeconds: 0 } });
  await lead.lock();
  const trays = (await lead.kitchenSheet()).slice(0, 4).map(({ tray, cups }) => ({
    tray,
    codes: cups.map(({ code }) => code),
  }));
  const booth = new TabletHands(await pageOf(machines[1]));
  await booth.enroll(server.origin, await lead.tabletCode("Booth 1"), "Booth 1");
  for (const { tray, codes } of trays.slice(0, 3)) await booth.answer(tray, codes, codes[0] ?? "");
  await lead.answered(3, plan.people);
  const before = await held(lead);
  expect(before).toEqual(expect.arrayContaining(["study-locked", ...trays.slice(0, 3).map(answerOf)]));

  await server.end("SIGKILL");
  rmSync(data, { recursive: true });
  await server.start();

  // one more answer while the tablet is not known to anybody
  const last = trays[3];
  if (!last) throw new Error("four trays");
  await booth.answer(last.tray, last.codes, last.codes[0] ?? "");

  // the lead is told, and the set-up address that this server printed leads to the page for it
  await lead.page.getByRole("link", { name: organizer.status.again }).waitFor({ timeout: 90_000 });
  await lead.page.goto(server.setupAddress());
  await lead.heading(organizer.setup.again.heading).waitFor();
  await lead.button(organizer.setup.submit).click();
  await lead.heading(studiesWords.heading).waitFor();
  await expect.poll(() => held(lead), { timeout: 30_000 }).toContain("study-locked");

  await booth.button(words.rest.enrollAgain).click({ timeout: 90_000 });
  await booth.page.getByLabel(panelEnroll.code).fill(await lead.tabletCode("Booth 1"));
  await booth.button(panelEnroll.go).click();
  await booth.heading(words.rest.title).waitFor();

  const after = [...before, `tray-opened ${last.tray}`, answerOf(last), `tray-finished ${last.tray}`].sort();
  await expect.poll(() => held(lead), { timeout: 60_000 }).toEqual(after);
  await lead.answered(4, plan.people);
  expect((await booth.stored()).filter((row) => !row.endsWith(" safe"))).toEqual([]);
});

const answerOf = ({ tray }: { tray: number }): string => `answer-kept ${tray}`;
