/** Lets go of a tray. */
export type Release = () => void;

const prefix = "cloche-tray ";
/** Shared by every window with a tray in hand; a new version of the app takes it alone. */
const allTrays = "cloche-trays";
const patienceMs = 700;

/** Trays that this window has in hand, and what waits until it has none. */
let mine = 0;
let afterLast: (() => void)[] = [];

/**
 * Holds a tray for this window, so that no other window of the tablet opens it.
 * Returns null when another one has it. A window that crashes lets go by itself.
 */
export async function holdTray(study: string, tray: number): Promise<Release | null> {
  const name = `${prefix}${study} ${tray};`; // its end is marked, so that tray 1 is not the start of tray 17
  const release = await ("locks" in navigator ? holdByLock(name) : holdByWord(name));
  if (!release) return null;
  mine += 1;
  let held = true;
  return () => {
    if (!held) return;
    held = false;
    release();
    mine -= 1;
    if (mine > 0) return;
    const waiting = afterLast;
    afterLast = [];
    for (const run of waiting) run();
  };
}

/**
 * Does something while no window of this tablet has a tray in hand, and lets none be opened until it is done.
 * Returns false, and does nothing, when there is one.
 */
export async function betweenTrays(work: () => Promise<unknown>): Promise<boolean> {
  if (!("locks" in navigator)) {
    if (await isHeldByWord(prefix)) return false;
    await work();
    return true;
  }
  return navigator.locks.request(allTrays, { ifAvailable: true }, async (lock) => {
    if (!lock) return false;
    await work();
    return true;
  });
}

/** Runs something at once, or when this window has put its tray down. */
export function onceNoTray(run: () => void): void {
  if (mine === 0) run();
  else afterLast.push(run);
}

/** The wait covers a page being reloaded, whose old self lets go a moment later. */
function holdByLock(name: string): Promise<Release | null> {
  return new Promise((resolve) => {
    const signal = AbortSignal.timeout(patienceMs);
    const held = () => new Promise<void>((release) => resolve(release));
    const own = () => navigator.locks.request(name, { signal }, held);
    navigator.locks.request(allTrays, { mode: "shared", signal }, own).catch(() => resolve(null));
  });
}

// Without a secure address there are no locks: windows ask each other instead. Two that ask in the same instant may
// both get the tray; each keeps its answer, and marks make one event of a tray on one tablet.
const channel = (): BroadcastChannel => new BroadcastChannel("cloche-trays");

async function holdByWord(name: string): Promise<Release | null> {
  if (await isHeldByWord(name)) return null;
  const answering = channel();
  answering.onmessage = ({ data }) => {
    if (typeof data?.ask === "string" && name.startsWith(data.ask)) answering.postMessage({ held: name });
  };
  return () => answering.close();
}

function isHeldByWord(start: string): Promise<boolean> {
  const asking = channel();
  return new Promise<boolean>((resolve) => {
    asking.onmessage = ({ data }) => {
      if (typeof data?.held === "string" && data.held.startsWith(start)) resolve(true);
    };
    asking.postMessage({ ask: start });
    setTimeout(() => resolve(false), patienceMs / 2);
  }).finally(() => asking.close());
}
