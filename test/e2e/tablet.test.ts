import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { panel as words } from "../../src/words/en/panel.ts";
import { readyPlan } from "../design/scenario.ts";
import { freePort, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";
import { TabletHands } from "./tablet.ts";

const { folder, remove } = scratch("tablet");
let server: ServerProcess;
let lead: ApiLead;
let machines = 0;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  lead = await ApiLead.enroll(server);
  const plan = readyPlan();
  await lead.lock({ ...plan, serving: { ...plan.serving, pauseSeconds: 0 } });
});
afterAll(async () => {
  await server.end("SIGTERM");
  remove();
});

const codesOf = (tray: number): string[] => lead.trays.blind.find((one) => one.tray === tray)?.codes ?? [];

async function newTablet(): Promise<{ machine: Machine; hands: TabletHands }> {
  machines += 1;
  const machine = new Machine(join(folder, `profile-${machines}`), tablet);
  const page = await (await machine.start()).newPage();
  const hands = new TabletHands(page);
  await hands.enroll(server.origin, await lead.tabletCode(`Booth ${machines}`), `Booth ${machines}`);
  await hands.offlineReady();
  return { machine, hands };
}

async function comeBack(machine: Machine): Promise<TabletHands> {
  const page = await (await machine.start()).newPage();
  await page.goto(`${server.origin}/panel/`);
  return new TabletHands(page);
}

describe("answers on the tablet", () => {
  test("A1: the browser is killed in the middle of a ballot; the same tray, question and choice come back", async () => {
    const { machine, hands } = await newTablet();
    await hands.answer(1, codesOf(1), codesOf(1)[1] ?? "");
    await hands.taste(2, codesOf(2));
    await hands.pick(codesOf(2)[2] ?? "", true);
    await hands.page.waitForFunction(() => document.querySelector<HTMLInputElement>("input[type=checkbox]")?.checked);
    await settled(hands);
    await machine.kill();

    const again = await comeBack(machine);
    await again.page.getByRole("radio").first().waitFor({ state: "attached" });
    expect(await again.page.getByRole("radio", { checked: true }).getAttribute("value")).toBe(codesOf(2)[2]);
    expect(await again.page.getByRole("checkbox").isChecked()).toBe(true);
    expect((await again.stored()).map((row) => row.split(" ").slice(0, 2).join(" "))).toEqual([
      "1 tray-opened",
      "1 answer-kept",
      "1 tray-finished",
      "2 tray-opened",
    ]);
    await again.keep();
    await again.finish();
    await machine.close();
  });

  test("A2: killed as soon as the thank-you screen shows, five times: each ballot is there, whole and once", async () => {
    const { machine } = await newTablet();
    await machine.kill();
    for (let tray = 3; tray <= 7; tray++) {
      const hands = await comeBack(machine);
      await hands.taste(tray, codesOf(tray));
      await hands.pick(codesOf(tray)[0] ?? "");
      await hands.keep();
      await hands.finish();
      await machine.kill();
    }
    const hands = await comeBack(machine);
    const stored = (await hands.stored()).map((row) => row.split(" ").slice(0, 2).join(" "));
    const wanted = Array.from({ length: 5 }, (_, i) =>
      ["tray-opened", "answer-kept", "tray-finished"].map((kind) => `${i + 3} ${kind}`),
    );
    expect(stored).toEqual(wanted.flat());
    const ofTheseTrays = (row: string): boolean => Number(row.split(" ")[0]) >= 3 && Number(row.split(" ")[0]) <= 7;
    const onServer = async (): Promise<string[]> => (await lead.ballotEvents()).filter(ofTheseTrays).sort();
    await expect.poll(onServer, { timeout: 30_000 }).toEqual(wanted.flat().sort());
    await machine.close();
  });

  test("A4: no room left at Keep this: a blocking sentence, the answer stays, one press saves it after space is freed", async () => {
    const { machine, hands } = await newTablet();
    await hands.taste(13, codesOf(13));
    await hands.pick(codesOf(13)[1] ?? "");
    await settled(hands);
    const before = await hands.stored();
    const session = await hands.page.context().newCDPSession(hands.page);
    const { usage } = await hands.page.evaluate(() => navigator.storage.estimate());
    await session.send("Storage.overrideQuotaForOrigin", {
      origin: server.origin,
      quotaSize: (usage ?? 0) + 2_000_000,
    });
    expect(await hands.page.evaluate(fillStorage)).toContain("QuotaExceededError");
    await hands.button(words.question.keep).click();
    await hands.page.getByRole("alert").filter({ hasText: "Not saved" }).waitFor();
    expect(await hands.page.getByRole("radio", { checked: true }).getAttribute("value")).toBe(codesOf(13)[1]);
    expect(await hands.heading(words.remark.title).count()).toBe(0);
    expect(await hands.stored()).toEqual(before);

    await hands.page.evaluate(
      () =>
        new Promise((done) => {
          indexedDB.deleteDatabase("filler").onsuccess = done;
        }),
    );
    await session.send("Storage.overrideQuotaForOrigin", { origin: server.origin });
    await hands.keep();
    await hands.finish();
    expect((await hands.stored()).filter((row) => row.startsWith("13 answer-kept"))).toHaveLength(1);
    await machine.close();
  });
});

/** Writes random bytes, which do not compress, in ever smaller pieces until not even 16 fit. Runs in the page. */
async function fillStorage(): Promise<string> {
  const database = await new Promise<IDBDatabase>((done) => {
    const open = indexedDB.open("filler");
    open.onupgradeneeded = () => open.result.createObjectStore("filler", { autoIncrement: true });
    open.onsuccess = () => done(open.result);
  });
  let reason = "";
  for (const size of [65_536, 4096, 256, 16]) {
    for (let written = true; written; ) {
      written = await new Promise<boolean>((done) => {
        const tx = database.transaction("filler", "readwrite", { durability: "strict" });
        tx.objectStore("filler").add(crypto.getRandomValues(new Uint8Array(size)));
        tx.oncomplete = () => done(true);
        tx.onabort = () => {
          reason = String(tx.error);
          done(false);
        };
      });
    }
  }
  database.close();
  return reason;
}

/** The draft of the question is on disk. */
async function settled(hands: TabletHands): Promise<void> {
  await hands.page.waitForFunction(
    () =>
      new Promise<boolean>((done) => {
        const open = indexedDB.open("cloche-panel");
        open.onsuccess = () => {
          const all = open.result.transaction("drafts").objectStore("drafts").getAll();
          all.onsuccess = () => {
            open.result.close();
            const checked = document.querySelector<HTMLInputElement>("input[type=radio]:checked")?.value ?? "";
            const guess = document.querySelector<HTMLInputElement>("input[type=checkbox]")?.checked ?? false;
            const text = JSON.stringify(all.result);
            done(text.includes(`"picked":"${checked}"`) && text.includes(`"guess":${guess}`));
          };
        };
      }),
  );
}
