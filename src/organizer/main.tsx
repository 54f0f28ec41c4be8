import { render } from "preact";
import { startSending } from "../device/sending.ts";
import { DeviceStore } from "../device/store.ts";
import type { Status } from "../model/http.ts";
import { appVersion } from "../ui/app-version.ts";
import { watchForUpdate } from "../ui/update.ts";
import { App } from "./app.tsx";
import "./organizer.css";
import { afterRun, neverSent, type Sent } from "./status.ts";

const everyMs = 15_000;
const now = (): string => new Date().toISOString();
const fetcher = (input: string, init: RequestInit): Promise<Response> => fetch(input, init);

const store = new DeviceStore("cloche-lead");
let sent: Sent = neverSent;
const listeners = new Set<(sent: Sent) => void>();

const { sendNow } = startSending({
  store,
  fetcher,
  status: ownStatus,
  uniform: () => Math.random(),
  everyMs,
  onOutcome: (outcome) => {
    sent = afterRun(sent, outcome, now());
    for (const listener of listeners) listener(sent);
  },
});
void sendNow();

/** What the server is told of this browser besides events. */
async function ownStatus(): Promise<Status> {
  const { unsent } = await store.counts();
  const persisted = (await navigator.storage?.persisted?.()) ?? null;
  return { unsent, battery: null, persisted, app: appVersion };
}

function onSent(listener: (sent: Sent) => void): () => void {
  listeners.add(listener);
  listener(sent);
  return () => listeners.delete(listener);
}

const root = document.getElementById("app");
if (root) {
  const onUpdate = (listener: (accept: () => void) => void): void => void watchForUpdate("/organizer/", listener);
  render(<App store={store} fetcher={fetcher} now={now} sendNow={sendNow} onSent={onSent} onUpdate={onUpdate} />, root);
}
// what a lead plans and locks should outlast a full disk: asked once, shown nowhere, counted on never
void navigator.storage?.persist?.().catch(() => undefined);
