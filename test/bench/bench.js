// The door of `npm run bench`: installs and builds what is missing, then runs main.ts as it stands.
import { join } from "node:path";
import { prepare } from "../../src/cli/prepare.js";

if (prepare(true)) {
  // Vite is there only after that; here it does nothing but read TypeScript: it serves nothing and watches nothing
  const { createServer } = await import("vite");
  const reader = await createServer({
    configFile: false,
    root: join(import.meta.dirname, "../.."),
    appType: "custom",
    logLevel: "warn",
    optimizeDeps: { noDiscovery: true },
    server: { middlewareMode: true, hmr: false, ws: false, watch: null },
  });
  try {
    const { main } = await reader.ssrLoadModule("/test/bench/main.ts");
    process.exitCode = await main(process.argv.slice(2));
  } finally {
    await reader.close();
  }
}
