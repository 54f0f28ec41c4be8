import { render } from "preact";
import { PanelStore } from "../device/panel-store.ts";
import { helloReply, type Status } from "../model/http-device.ts";
import "../ui/tokens.css";
import "./panel.css";
import { appVersion } from "../ui/app-version.ts";
import { App } from "./app.tsx";
import { readCardCheck, roomMm } from "./card-check.ts";
import type { AppParts } from "./parts.ts";
import { betweenTrays, holdTray, onceNoTray } from "./tray-hold.ts";
import { WakeLock } from "./wake-lock.ts";

const store = new PanelStore("cloche-panel");
const fetcher = (input: string, init: RequestInit): Promise<Response> => fetch(input, init);

/** How the last press was made: "touch", "mouse", "pen" or "keyboard". */
let pointer = "unknown";
window.addEventListener("pointerdown", (event) => {
  pointer = event.pointerType || "unknown";
});
window.addEventListener("keydown", () => {
  pointer = "keyboard";
});

/** A code in an address that ends in "#code=K7QM-4XTP" is used once, and must not stay where others could read it. */
function takeCode(): string {
  const code = new URLSearchParams(location.hash.slice(1)).get("code");
  if (code !== null) history.replaceState(null, "", location.pathname);
  return code ?? "";
}

type Battery = { level: number };
const asksBattery = navigator as Navigator & { getBattery?: () => Promise<Battery> };

async function status(): Promise<Status> {
  const { unsent } = await store.counts();
  const battery = await asksBattery.getBattery?.().catch(() => null);
  const persisted = await navigator.storage?.persisted?.().catch(() => null);
  const check = await readCardCheck(store);
  const lineMm = check && check.pixelRatio === parts.glass().pixelRatio ? roomMm(check, parts.glass()).turned : null;
  return { unsent, battery: battery?.level ?? null, persisted: persisted ?? null, app: appVersion, lineMm };
}

const loadLine = () => import("./line/line-room.tsx");
const loadChew = () => import("./chew/chew-room.tsx");
const loadChoice = () => import("./choice/choice-room.tsx");
const loadTools = () => import("./tools/tools-room.tsx");

const parts: AppParts = {
  store,
  fetcher,
  clock: {
    monotonic: () => performance.now(),
    instant: () => new Date().toISOString(),
    after: (ms, run) => {
      const timer = setTimeout(run, ms);
      return () => clearTimeout(timer);
    },
  },
  uniform: Math.random,
  status,
  salt: () =>
    [...crypto.getRandomValues(new Uint8Array(32))].map((byte) => byte.toString(16).padStart(2, "0")).join(""),
  hold: holdTray,
  betweenTrays,
  awake: new WakeLock(),
  screen: () => ({
    widthPx: window.innerWidth,
    heightPx: window.innerHeight,
    pixelRatio: window.devicePixelRatio,
    pointer,
  }),
  glass: () => ({
    widthPx: window.innerWidth,
    longSidePx: Math.max(window.screen.width, window.screen.height),
    // two fingers enlarge what is on the glass and leave the page's own pixel ratio as it was
    pixelRatio: window.devicePixelRatio * (window.visualViewport?.scale ?? 1),
  }),
  onHidden: (listener) => {
    const look = (): void => {
      if (document.visibilityState === "hidden") listener();
    };
    document.addEventListener("visibilitychange", look);
    return () => document.removeEventListener("visibilitychange", look);
  },
  loadLine,
  loadChew,
  loadChoice,
  loadTools,
  code: takeCode(),
  wasEnrolled: async () => {
    const { call } = await import("../device/transport.ts");
    const outcome = await call(fetcher, helloReply, "/api/hello");
    return outcome.ok && outcome.reply.device !== null;
  },
  persist: () => void navigator.storage?.persist?.().catch(() => undefined),
  worksOffline: () => Boolean(navigator.serviceWorker?.controller),
  watchForUpdate: (onWaiting) =>
    void import("../ui/update.ts").then(({ watchForUpdate }) => watchForUpdate("/panel/", onWaiting, onceNoTray)),
};

// nothing that was loaded late may be missing when the network is away
for (const load of [loadChoice, loadLine, loadChew, loadTools]) void load().catch(() => undefined);

render(<App parts={parts} />, document.getElementById("app") as HTMLElement);
