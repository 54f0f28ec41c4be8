import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { writeEvent } from "../../src/log/facts.ts";
import type { Body } from "../../src/model/event.ts";
import type { EnrollReply } from "../../src/model/http.ts";
import { newEventId } from "../../src/model/id.ts";
import { reader } from "../../src/words/en/reader.ts";
import { readyPlan } from "../design/scenario.ts";
import { freePort, laptop, Machine, ServerProcess, scratch } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";

const { folder, remove } = scratch("print");
const machine = new Machine(join(folder, "profile"), laptop);
let server: ServerProcess;
let page: Page;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  const lead = await ApiLead.enroll(server);
  await lead.lock(readyPlan());
  const seen = await answerAll(lead);
  await lead.say("study-closed", { heads: seen, knownUnsent: 0, note: "" });
  await lead.say("key-revealed", { heads: seen, opened: lead.opened });
  const { code } = (await lead.post("/api/codes", { role: "reader", study: lead.study, name: "" })) as { code: string };
  page = await (await machine.start()).newPage();
  await page.goto(`${server.origin}/report/?study=${lead.study}`);
  await page.getByLabel(reader.enroll.code).fill(code);
  await page.getByLabel(reader.enroll.name).fill("Priya Lindqvist");
  await page.getByRole("button", { name: reader.enroll.submit }).click();
  await page.getByRole("heading", { level: 1 }).filter({ hasText: "14 of 24" }).waitFor();
});
afterAll(async () => {
  await machine.close();
  await server.end("SIGTERM");
  remove();
});

/** Every ballot of the plan from one tablet, the first 14 right, in one batch; the heads that a lead then sees. */
async function answerAll(lead: ApiLead): Promise<Record<string, number>> {
  const me = (await lead.post("/api/enroll", {
    code: await lead.tabletCode("Booth 1"),
    name: "Booth 1",
  })) as EnrollReply;
  const events: string[] = [];
  let prev: string | null = null;
  for (const { tray, order, samples } of lead.trays.key.trays.slice(0, readyPlan().people)) {
    const odd = samples.findIndex((_, place) => order.split(order[place] ?? "").length === 2);
    const answer: Body<"answer-kept"> = {
      ...{ tray, question: 1, guess: false, elapsedMs: 41_000, salt: "5a".repeat(32) },
      choice: samples[tray <= 14 ? odd : (odd + 1) % 3]?.code ?? "",
      screen: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
    };
    const written: ReturnType<typeof writeEvent> = writeEvent({
      ...{
        id: newEventId(),
        stream: { kind: "study", id: lead.study },
        device: me.device,
        seq: events.length + 1,
        prev,
      },
      ...{ at: "2026-05-03T14:02:00.000Z", kind: "answer-kept", body: answer },
    });
    events.push(written.text);
    prev = written.hash;
  }
  await lead.post("/api/events", { events, attachments: [], status: null }, me.token);
  return { [me.device]: events.length };
}

/** What stands on each page of the printed report, as a reader of PDF files finds it. */
async function printed(format: "A4" | "Letter"): Promise<string[]> {
  const file = join(folder, `${format}.pdf`);
  writeFileSync(file, await page.pdf({ format, printBackground: false }));
  return execFileSync("pdftotext", ["-layout", file, "-"]).toString().split("\f").slice(0, -1);
}

test.each([
  ["A4", laptop],
  ["Letter", laptop],
  ["A4", { width: 390, height: 844 }],
  ["Letter", { width: 390, height: 844 }],
] as const)(
  "on %s, after a window of %o, page one holds verdict, picture and the table of numbers",
  async (format, size) => {
    await page.setViewportSize(size);
    const [first = ""] = await printed(format);
    expect(first).toContain("14 of 24 picked");
    expect(first).toContain("this panel: 14");
    for (const label of ["Right of answered", "p, exact", "Share who can tell", "Ticked “this was a guess”"]) {
      expect(first).toContain(label);
    }
  },
);
