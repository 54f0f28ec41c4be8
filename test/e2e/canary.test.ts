import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readyPlan } from "../design/scenario.ts";
import { freePort, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";
import { TabletHands } from "./tablet.ts";

// Unlikely strings in every place where the plan says something that a panelist must not learn.
const canaries = {
  title: "Quokkatitle",
  objective: "Wombatobjective",
  productA: "Axolotlproduct",
  productB: "Narwhalproduct",
  preparationA: "Ocelotprep",
  preparationB: "Tapirprep",
  batchA: "Kestrelbatch",
  batchB: "Lemurbatch",
  place: "Ibexplace",
};

const { folder, remove } = scratch("canary");
const machine = new Machine(join(folder, "profile"), tablet);
let server: ServerProcess;
let lead: ApiLead;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  lead = await ApiLead.enroll(server);
  const ready = readyPlan();
  const [a, b] = ready.products;
  if (!a || !b) throw new Error("two products");
  const batches = { [a.id]: [canaries.batchA], [b.id]: [canaries.batchB] };
  await lead.lock({
    ...ready,
    title: canaries.title,
    objective: canaries.objective,
    place: canaries.place,
    serving: { ...ready.serving, pauseSeconds: 0 },
    products: [
      { ...a, name: canaries.productA, preparation: canaries.preparationA },
      { ...b, name: canaries.productB, preparation: canaries.preparationB },
    ],
    waves: ready.waves.map((wave) => ({ ...wave, batches })),
  });
});
afterAll(async () => {
  await machine.close();
  await server.end("SIGTERM");
  remove();
});

/** Everything that the page's origin keeps in the browser, as one text. */
const everythingKept = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const kept: unknown[] = [
      document.documentElement.outerHTML,
      { ...localStorage },
      { ...sessionStorage },
      document.cookie,
    ];
    for (const { name = "" } of await indexedDB.databases()) {
      const database = await new Promise<IDBDatabase>((done) => {
        const open = indexedDB.open(name);
        open.onsuccess = () => done(open.result);
      });
      for (const store of database.objectStoreNames) {
        const all = database.transaction(store).objectStore(store).getAll();
        kept.push(
          await new Promise((done) => {
            all.onsuccess = () => done(all.result);
          }),
        );
      }
      database.close();
    }
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const request of await cache.keys()) kept.push(request.url, await (await cache.match(request))?.text());
    }
    return JSON.stringify(kept);
  });

/** The secrets that a text holds: plainly, reversed, in hex or in base64 (at any of the three byte offsets). */
function leaks(text: string, secrets: string[]): string[] {
  const low = text.toLowerCase();
  return secrets.filter((secret) => {
    const forms = [
      secret.toLowerCase(),
      [...secret].reverse().join("").toLowerCase(),
      Buffer.from(secret).toString("hex"),
    ];
    const offsets = ["", "x", "xx"].map((pad) =>
      Buffer.from(pad + secret)
        .toString("base64")
        .slice(4, -4),
    );
    return forms.some((form) => low.includes(form)) || offsets.some((form) => text.includes(form));
  });
}

test("G2: played to the end, nothing on the tablet, on its wire or in the server's log names a product, a batch, the title, an order or the seed", async () => {
  const context = await machine.start();
  const wire: string[] = [];
  const bodies: Promise<void>[] = [];
  context.on("response", (response) => {
    bodies.push(
      (async () => {
        const headers = await response.allHeaders();
        wire.push(response.url(), JSON.stringify(headers), await response.text().catch(() => ""));
      })(),
    );
  });
  const hands = new TabletHands(await context.newPage());
  await hands.enroll(server.origin, await lead.tabletCode("Booth 1"), "Booth 1");
  await hands.offlineReady();
  const codes = (tray: number) => lead.trays.blind.find((one) => one.tray === tray)?.codes ?? [];
  for (const tray of [1, 2, 3, 4]) await hands.answer(tray, codes(tray), codes(tray)[tray % 3] ?? "");
  // four trays: consent, choice, remark and finish each; the last of them may still be on its way
  await expect.poll(async () => (await lead.events()).events.length, { timeout: 60_000 }).toBeGreaterThan(12);
  const heads = {};
  await lead.say("study-closed", { heads, knownUnsent: 0, note: "" });
  await lead.say("key-revealed", { heads, opened: lead.opened });
  // what the tablet is told once the key is open belongs into the tape as well
  const before = wire.length;
  const news = hands.page.waitForResponse((response) => response.url().endsWith("/api/panel"));
  await hands.page.reload();
  await hands.heading("Please take the tray with its card.").waitFor();
  await (await news).finished();
  await Promise.all(bodies);
  expect(wire.slice(before)).toContain(`${server.origin}/api/panel`);

  const secrets = [
    ...Object.values(canaries),
    ...lead.trays.key.trays.flatMap(({ samples }) => samples.map(({ product }) => product)),
    lead.trays.key.seed,
    lead.opened.salt,
  ];
  const cookies = JSON.stringify(await context.cookies());
  const kept = await everythingKept(hands.page);
  // the dump is a real one: it holds what a tablet does have
  expect(kept).toContain(codes(1)[0]);
  expect(wire.join("\n")).toContain(codes(1)[0]);
  expect({
    wire: leaks(wire.join("\n"), secrets),
    kept: leaks(kept, secrets),
    cookies: leaks(cookies, secrets),
    log: leaks(server.output, secrets),
  }).toEqual({ wire: [], kept: [], cookies: [], log: [] });
  // order labels such as AAB never appear as a value of their own
  expect(`${kept}${wire.join("\n")}`).not.toMatch(/\b(AAB|ABA|BAA|BBA|BAB|ABB)\b/);
});

test("the search finds a planted secret plainly, reversed, in hex and in base64", () => {
  const secret = canaries.productA;
  const planted = [
    secret,
    [...secret].reverse().join(""),
    Buffer.from(secret).toString("hex"),
    Buffer.from(`a ${secret} b`).toString("base64"),
  ];
  for (const text of planted) expect(leaks(`before ${text} after`, [secret])).toEqual([secret]);
  expect(leaks("nothing of the kind", [secret])).toEqual([]);
});
