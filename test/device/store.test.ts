import "fake-indexeddb/auto";
import { describe, test } from "vitest";
import { cases } from "./outbox-suite.ts";

// fake-indexeddb has no disk: this proves the logic and that durability is asked for. The same suite runs in a real
// browser in test/e2e/outbox.test.ts.
describe("store and outbox on fake-indexeddb", () => {
  test.each(cases)("$name", async ({ run }) => run(`cloche-${crypto.randomUUID()}`));
});
