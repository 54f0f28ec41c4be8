import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { build } from "vite";
import { afterAll, beforeAll, expect, test } from "vitest";
import { cases } from "../device/outbox-suite.ts";
import { laptop, Machine, scratch } from "./machine.ts";

const { folder, remove } = scratch("outbox");
const machine = new Machine(join(folder, "profile"), laptop);
let server: Server;
let outcomes: { name: string; failed: string | null }[] = [];

beforeAll(async () => {
  await build({
    configFile: false,
    logLevel: "warn",
    build: {
      outDir: join(folder, "page"),
      target: "es2022",
      lib: { entry: join(import.meta.dirname, "outbox-page.ts"), formats: ["es"], fileName: () => "page.js" },
    },
  });
  const script = readFileSync(join(folder, "page/page.js"));
  server = createServer((request, response) => {
    if (request.url === "/page.js") response.writeHead(200, { "content-type": "text/javascript" }).end(script);
    else response.writeHead(200, { "content-type": "text/html" }).end('<script type="module" src="/page.js"></script>');
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  const page = await (await machine.start()).newPage();
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  await page.waitForFunction(() => "outcomes" in window, undefined, { timeout: 90_000 });
  outcomes = await page.evaluate(() => (window as unknown as { outcomes: typeof outcomes }).outcomes);
});
afterAll(async () => {
  await machine.close();
  await new Promise((closed) => server.close(closed));
  remove();
});

test.each(cases.map(({ name }) => name))("in Chromium: %s", (name) => {
  expect(outcomes.find((outcome) => outcome.name === name)).toEqual({ name, failed: null });
});
