import preact from "@preact/preset-vite";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: "src",
  publicDir: "../public",
  plugins: [preact()],
  test: {
    root: ".",
    projects: [
      {
        extends: true,
        test: { name: "unit", include: ["test/**/*.test.{ts,tsx}"], exclude: ["test/server/**", "test/e2e/**"] },
      },
      {
        extends: true,
        test: { name: "server", include: ["test/server/**/*.test.ts"], testTimeout: 60_000, hookTimeout: 60_000 },
      },
      {
        extends: true,
        test: {
          name: "e2e",
          include: ["test/e2e/**/*.test.ts"],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
