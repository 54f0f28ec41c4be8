import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { build } from "vite";

const html =
  '<!doctype html><html lang="en"><meta name="viewport" content="width=device-width, initial-scale=1">' +
  '<title>Skeleton</title><body><script type="module" src="/page.js"></script></body></html>';

/** Builds the skeleton page into a folder and serves it on loopback. `given` is what the page reads at its start. */
export async function serveSkeleton(folder: string, given: unknown): Promise<{ origin: string; close: () => void }> {
  await build({
    configFile: false,
    logLevel: "warn",
    build: {
      outDir: folder,
      emptyOutDir: true,
      target: "es2022",
      lib: { entry: join(import.meta.dirname, "skeleton-page.ts"), formats: ["es"], fileName: () => "page.js" },
    },
  });
  const script = readFileSync(join(folder, "page.js"));
  const server = createServer((request, response) => {
    const send = (type: string, body: string | Buffer) => response.writeHead(200, { "content-type": type }).end(body);
    if (request.url === "/page.js") send("text/javascript", script);
    else if (request.url === "/given.json") send("application/json", JSON.stringify(given));
    else send("text/html", html);
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  const { port } = server.address() as AddressInfo;
  return { origin: `http://localhost:${port}`, close: () => end(server) };
}

function end(server: Server): void {
  server.close();
  server.closeAllConnections();
}
