import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import preact from "@preact/preset-vite";
import { build, type Plugin } from "vite";
import { defineConfig } from "vitest/config";
import { getManifest } from "workbox-build";

const source = join(import.meta.dirname, "src");
const output = join(import.meta.dirname, "dist/app");
const { version } = JSON.parse(readFileSync(join(import.meta.dirname, "package.json"), "utf8")) as { version: string };

/** Rooms that must not be reachable from what a panel device loads: what is not shipped cannot leak. */
const notOnTablets = /^(analysis|design|seal|demo|archive|organizer|report)\//;
/** Entries that work offline, each with a worker of its own whose scope is its folder. */
const offlineEntries = ["panel", "organizer"];
/** Modules that tablets and other entries load. All that these import, in turn, is loaded by tablets anyway. */
const sharedByTablets = new RegExp(
  [
    "/preact/",
    "/src/device/(enrolled|event-store)\\.ts$",
    "/src/log/reading\\.ts$",
    "/src/model/(http-device|tray)\\.ts$",
    "/src/ui/(app-version|code-digits|error-boundary|use-store)\\.tsx?$",
    "/src/words/en/(device-problems|panel)\\.ts$",
  ].join("|"),
);

type Chunk = { file: string; css?: string[]; assets?: string[]; imports?: string[]; dynamicImports?: string[] };

/** Fails the build when a chunk that a panel device can load, dynamic imports included, holds a forbidden room. */
function blindPanel(): Plugin {
  return {
    name: "cloche-blind-panel",
    generateBundle(_options, bundle) {
      const chunks = Object.values(bundle).filter((part) => part.type === "chunk");
      const byFile = new Map(chunks.map((chunk) => [chunk.fileName, chunk]));
      const seen = new Set<string>();
      const queue = chunks.filter((chunk) => chunk.facadeModuleId === join(source, "panel/index.html"));
      for (let chunk = queue.pop(); chunk; chunk = queue.pop()) {
        if (seen.has(chunk.fileName)) continue;
        seen.add(chunk.fileName);
        const leak = chunk.moduleIds.map((id) => relative(source, id)).find((id) => notOnTablets.test(id));
        if (leak) this.error(`the panel's chunk ${chunk.fileName} holds ${leak}, which no panel device may load`);
        for (const file of [...chunk.imports, ...chunk.dynamicImports]) {
          const next = byFile.get(file);
          if (next) queue.push(next);
        }
      }
      if (seen.size === 0) this.error("the panel's entry was not found in the bundle");
    },
  };
}

/** Writes one service worker for each offline entry, with the list of exactly the files that entry can load. */
function serviceWorkers(): Plugin {
  return {
    name: "cloche-service-workers",
    apply: "build",
    enforce: "post",
    async writeBundle() {
      const manifest = JSON.parse(readFileSync(join(output, ".vite/manifest.json"), "utf8")) as Record<string, Chunk>;
      for (const entry of offlineEntries) {
        const files = [
          `${entry}/index.html`,
          `${entry}/manifest.webmanifest`,
          "icon.svg",
          ...filesOf(manifest, `${entry}/index.html`),
        ];
        const { manifestEntries } = await getManifest({
          globDirectory: output,
          globPatterns: files,
          dontCacheBustURLsMatching: /assets\//,
        });
        const list = manifestEntries.map((file) => ({ ...file, url: `/${file.url}` }));
        await build({
          configFile: false,
          publicDir: false,
          logLevel: "warn",
          define: {
            "self.__WB_MANIFEST": JSON.stringify(list),
            "self.__ENTRY": JSON.stringify(entry),
            "process.env.NODE_ENV": '"production"',
          },
          build: {
            outDir: output,
            emptyOutDir: false,
            lib: {
              entry: join(source, "ui/worker/sw.ts"),
              formats: ["iife"],
              name: "sw",
              fileName: () => `${entry}/sw.js`,
            },
          },
        });
      }
    },
  };
}

function filesOf(manifest: Record<string, Chunk>, entry: string): string[] {
  const seen = new Set<string>();
  const queue = [entry];
  const files = new Set<string>();
  for (let name = queue.pop(); name; name = queue.pop()) {
    const chunk = manifest[name];
    if (!chunk || seen.has(name)) continue;
    seen.add(name);
    for (const file of [chunk.file, ...(chunk.css ?? []), ...(chunk.assets ?? [])]) files.add(file);
    queue.push(...(chunk.imports ?? []), ...(chunk.dynamicImports ?? []));
  }
  return [...files];
}

/** Browser tests that take longest begin first: of two workers none is left to do a long one alone at the end. */
const longest = ["accessibility", "tablet-tabs", "report-families", "demo", "whole-job", "choice-ballots"];

class LongestFirst {
  sort<File extends { moduleId: string }>(files: File[]): File[] {
    const place = ({ moduleId }: File): number => {
      const at = longest.findIndex((name) => moduleId.endsWith(`/e2e/${name}.test.ts`));
      return at < 0 ? longest.length : at;
    };
    return files.toSorted((one, other) => place(one) - place(other));
  }
  /** Nothing is shared out over several machines. */
  shard<File>(files: File[]): File[] {
    return files;
  }
}

export default defineConfig({
  root: "src",
  publicDir: "../public",
  plugins: [preact(), blindPanel(), serviceWorkers()],
  define: { __APP_VERSION__: JSON.stringify(version) },
  worker: { format: "es" },
  build: {
    outDir: output,
    emptyOutDir: true,
    target: "es2022",
    manifest: true,
    // it only fetches earlier what is fetched anyway, in browsers that are too old to
    modulePreload: { polyfill: false },
    rolldownOptions: {
      // what a tablet shares with other entries goes into one file: it compresses better than in several
      output: { codeSplitting: { groups: [{ name: "common", test: sharedByTablets }] } },
      input: Object.fromEntries(
        ["start", "panel", "organizer", "report"].map((name) => [
          name,
          join(source, name === "start" ? "index.html" : `${name}/index.html`),
        ]),
      ),
    },
  },
  test: {
    root: ".",
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          include: ["test/**/*.test.{ts,tsx}"],
          exclude: ["test/server/**", "test/e2e/**"],
          // for a busy machine: nothing here is timed
          testTimeout: 60_000,
          hookTimeout: 60_000,
          setupFiles: ["test/patience.ts"],
          expect: { poll: { timeout: 20_000 } },
        },
      },
      {
        extends: true,
        test: {
          name: "server",
          include: ["test/server/**/*.test.ts"],
          testTimeout: 120_000,
          hookTimeout: 60_000,
          expect: { poll: { timeout: 20_000 } },
          fileParallelism: false,
        },
      },
      { extends: true, test: { name: "pictures", include: ["test/pictures/*.ts"], testTimeout: 600_000 } },
      {
        extends: true,
        test: {
          name: "e2e",
          include: ["test/e2e/**/*.test.ts"],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 20_000 } },
          // each file has its own server, port and profiles, and mostly waits: two at a time halve the wait
          maxWorkers: 2,
        },
      },
    ],
  },
});
