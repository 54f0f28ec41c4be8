import { Problem } from "../model/problem.ts";
import { read } from "../model/schema.ts";
import type { Values } from "./compute.ts";
import { answer, type Job } from "./job.ts";
import { type Piece, putBack } from "./pieces.ts";

type Watch = {
  /** Aborted: the work ends, and the promise is rejected with the signal's reason. */
  signal?: AbortSignal;
  /** Told how far a job with steps is, 0 to 1. */
  onShare?: (share: number) => void;
};

/** Has a job done beside the page. Throws what the job throws, and the signal's reason when it is aborted. */
export type Compute = <J extends Job>(job: J, watch?: Watch) => Promise<Values[J["job"]]>;

/** Workers that have nothing to do; a job without one starts another, so that jobs never wait for each other. */
const idle: Worker[] = [];
let refused = typeof Worker === "undefined";

/** As `Compute`: in a worker, or in the page itself, step by step, where a browser starts none. */
export const computeBeside: Compute = async <J extends Job>(job: J, watch: Watch = {}): Promise<Values[J["job"]]> => {
  watch.signal?.throwIfAborted();
  const value = refused ? notStarted : await inWorker(job, watch);
  // the job names what comes back: both sides are of one build
  return (value === notStarted ? await inPage(job, watch) : value) as Values[J["job"]];
};

const notStarted = Symbol("not started");

/** Starts a worker ahead of its first job: its script comes with the page, so that the network may go away after it. */
export function makeReady(): void {
  const worker = refused || idle.length > 0 ? null : started();
  if (!worker) return;
  idle.push(worker);
  // one that never came must not be given a job
  worker.onerror = () => void idle.splice(idle.indexOf(worker), 1);
}

function started(): Worker | null {
  try {
    return idle.pop() ?? new Worker(new URL("./worker/report-worker.ts", import.meta.url), { type: "module" });
  } catch {
    return null;
  }
}

function inWorker(job: Job, { signal, onShare }: Watch): Promise<unknown> {
  const worker = started();
  if (!worker) return Promise.resolve(notStarted);
  return new Promise((resolve, reject) => {
    const done = (): void => {
      worker.onmessage = null;
      worker.onerror = null;
      signal?.removeEventListener("abort", abort);
    };
    const abort = (): void => {
      done();
      worker.terminate();
      reject(signal?.reason);
    };
    signal?.addEventListener("abort", abort);
    const pieces: Piece[] = [];
    worker.onmessage = ({ data }) => {
      const message = read(answer, data);
      if (message.at === "under-way") return onShare?.(message.share);
      if (message.at === "piece") return void pieces.push(message);
      done();
      idle.push(worker);
      if (message.at === "done") {
        putBack(message.value, pieces);
        return resolve(message.value);
      }
      return reject(message.problem ? new Problem(message.problem) : new Error(message.text));
    };
    // its script was not loaded, or it broke: the page can do the same, and says what is wrong if it cannot
    worker.onerror = () => {
      done();
      worker.terminate();
      refused = true;
      resolve(notStarted);
    };
    worker.postMessage(job);
  });
}

async function inPage(job: Job, { signal, onShare }: Watch): Promise<unknown> {
  const { compute } = await import("./compute.ts");
  return compute(job, async (share) => {
    onShare?.(share);
    await new Promise((drawn) => setTimeout(drawn));
    signal?.throwIfAborted();
  });
}
