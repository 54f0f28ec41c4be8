import { cases } from "../device/outbox-suite.ts";

/** Runs the suite in the page it is loaded into; the test reads what it leaves on the window. */
const outcomes: { name: string; failed: string | null }[] = [];
for (const { name, run } of cases) {
  try {
    await run(`cloche-${crypto.randomUUID()}`);
    outcomes.push({ name, failed: null });
  } catch (error) {
    outcomes.push({ name, failed: error instanceof Error ? `${error.message}\n${error.stack}` : String(error) });
  }
}
Object.assign(window, { outcomes });
