import { cpSync } from "node:fs";
import { join } from "node:path";
import { panel as words } from "../../../src/words/en/panel.ts";
import { readyPlan } from "../../design/scenario.ts";
import { freePort, Machine, ServerProcess, tablet } from "../../e2e/machine.ts";
import { ApiLead } from "../../e2e/study-by-api.ts";
import { TabletHands } from "../../e2e/tablet.ts";
import { throttleOf } from "../cpu-index.ts";
import { readyMs, watchReady } from "./ready.ts";

/** A file of the panel's cache that no screen needs: under its address the static page is put there. */
const borrowed = "/panel/manifest.webmanifest";

/** The same words and the same kinds of things as the tablet at rest, without style or script. */
const staticPage = `<!doctype html><html lang="en"><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>Static</title>
<body><h1>${words.rest.title}</h1><p>${words.rest.lead}</p>
<form><label>${words.rest.field} <input inputmode="none"></label><button>${words.rest.open}</button></form></body></html>`;

/** A browser profile on disk, and the address that its browser opens without network. */
export class Profile {
  readonly #machine: Machine;
  readonly #address: string;

  constructor(folder: string, address: string) {
    this.#machine = new Machine(folder, tablet);
    this.#address = address;
  }

  /** Starts a new browser process and opens the page; returns the milliseconds until it is ready. */
  async start(rate: number): Promise<number> {
    try {
      const page = await (await this.#machine.start()).newPage();
      await (await throttleOf(page))(rate);
      await page.addInitScript(watchReady, words.rest.title);
      await page.goto(this.#address, { waitUntil: "commit" });
      const found = await (await page.waitForFunction(readyMs)).jsonValue();
      if (found === null) throw new Error("the page was never ready");
      return found;
    } finally {
      await this.#machine.close();
    }
  }
}

/**
 * Two profiles alike: a tablet that is enrolled and ready to work without network, and a copy of it in which the same
 * cache, read by the same worker, also holds a static page. When this returns, the server is gone.
 */
export async function prepareProfiles(folder: string): Promise<{ panel: Profile; page: Profile }> {
  const server = new ServerProcess(await freePort(), join(folder, "data"));
  const [panelFolder, pageFolder] = [join(folder, "panel"), join(folder, "page")];
  try {
    await server.start();
    const lead = await ApiLead.enroll(server);
    await lead.lock(readyPlan());
    await onTablet(panelFolder, async (hands) => {
      await hands.enroll(server.origin, await lead.tabletCode("Booth 1"), "Booth 1");
      await hands.offlineReady();
    });
  } finally {
    await server.end("SIGTERM");
  }
  cpSync(panelFolder, pageFolder, { recursive: true });
  await onTablet(pageFolder, async ({ page }) => {
    await page.goto(`${server.origin}/panel/`);
    if (!(await page.evaluate(putInto, { borrowed, staticPage }))) throw new Error(`no cache holds ${borrowed}`);
  });
  return {
    panel: new Profile(panelFolder, `${server.origin}/panel/`),
    page: new Profile(pageFolder, `${server.origin}${borrowed}`),
  };
}

async function onTablet(folder: string, work: (hands: TabletHands) => Promise<void>): Promise<void> {
  const machine = new Machine(folder, tablet);
  try {
    await work(new TabletHands(await (await machine.start()).newPage()));
  } finally {
    await machine.close();
  }
}

/** Runs in the page. Returns whether some cache held the address. */
async function putInto({ borrowed, staticPage }: { borrowed: string; staticPage: string }): Promise<boolean> {
  let found = false;
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
      if (new URL(request.url).pathname !== borrowed) continue;
      await cache.put(request, new Response(staticPage, { headers: { "content-type": "text/html" } }));
      found = true;
    }
  }
  return found;
}
