import { Problem } from "../../model/problem.ts";
import { read } from "../../model/schema.ts";
import { compute } from "../compute.ts";
import { type Answer, job } from "../job.ts";
import { takenOut } from "../pieces.ts";

declare const self: DedicatedWorkerGlobalScope;

/**
 * Computes for the reader's page, so that it can be read and left meanwhile. One job after the other; whoever no longer
 * wants an answer ends the worker.
 */
self.addEventListener("message", (event) => void answer(event.data));

async function answer(given: unknown): Promise<void> {
  try {
    const value = await compute(read(job, given), async (share) => send({ at: "under-way", share }));
    for (const piece of takenOut(value)) send({ at: "piece", ...piece });
    send({ at: "done", value });
  } catch (thrown) {
    const text = thrown instanceof Error ? thrown.message : String(thrown);
    send({ at: "failed", problem: thrown instanceof Problem ? thrown.problem : null, text });
  }
}

const send = (message: Answer): void => self.postMessage(message);
