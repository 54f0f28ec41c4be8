/** Lets go of a tray. */
export type Release = () => void;

const prefix = "cloche-tray ";
const patienceMs = 700;

/**
 * Holds a tray for this window, so that no other window of the tablet opens it.
 * Returns null when another one has it. A window that crashes lets go by itself.
 */
export function holdTray(study: string, tray: number): Promise<Release | null> {
  const name = `${prefix}${study} ${tray};`; // its end is marked, so that tray 1 is not the start of tray 17
  return "locks" in navigator ? holdByLock(name) : holdByWord(name);
}

/** Has any window of this tablet a tray open? */
export async function anyTrayHeld(): Promise<boolean> {
  if (!("locks" in navigator)) return isHeldByWord(prefix);
  const { held = [] } = await navigator.locks.query();
  return held.some((lock) => lock.name?.startsWith(prefix));
}

/** The wait covers a page being reloaded, whose old self lets go a moment later. */
function holdByLock(name: string): Promise<Release | null> {
  return new Promise((resolve) => {
    const held = () => new Promise<void>((release) => resolve(release));
    navigator.locks.request(name, { signal: AbortSignal.timeout(patienceMs) }, held).catch(() => resolve(null));
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
