import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { problem } from "../../src/model/problem.ts";
import type { Job } from "../../src/report/job.ts";
import { takenOut } from "../../src/report/pieces.ts";

const job: Job = {
  job: "reshuffle",
  blocks: [
    [1, 2],
    [2, 5],
    [4, 4],
  ],
  products: 2,
  times: 50,
  seed: "1",
};

/** Stands where a browser would start a worker; what it does with a job is the test's to say. */
let behavior: (worker: FakeWorker) => void;
let made: FakeWorker[] = [];
class FakeWorker {
  onmessage: ((event: { data: unknown }) => void) | null = null;
  onerror: (() => void) | null = null;
  ended = false;
  constructor() {
    made.push(this);
  }
  postMessage(given: unknown): void {
    expect(given).toEqual(structuredClone(job));
    queueMicrotask(() => behavior(this));
  }
  terminate(): void {
    this.ended = true;
  }
}

beforeEach(() => {
  made = [];
  vi.resetModules();
  vi.stubGlobal("Worker", FakeWorker);
});
afterEach(() => vi.unstubAllGlobals());
const beside = async () => (await import("../../src/report/computing.ts")).computeBeside;

describe("a job beside the page", () => {
  test("gives what the worker sends, tells how far it is, and keeps the worker for the next one", async () => {
    behavior = ({ onmessage }) => {
      onmessage?.({ data: { at: "under-way", share: 0.5 } });
      onmessage?.({ data: { at: "done", value: { atLeast: 3 } } });
    };
    const compute = await beside();
    const shares: number[] = [];
    expect(await compute(job, { onShare: (share) => shares.push(share) })).toEqual({ atLeast: 3 });
    await compute(job);
    expect(shares).toEqual([0.5]);
    expect(made).toHaveLength(1);
  });

  test("a problem in the worker is the same problem here", async () => {
    const found = problem("csv/no-rows", { path: "answers.csv" }).problem;
    behavior = ({ onmessage }) => onmessage?.({ data: { at: "failed", problem: found, text: "" } });
    await expect((await beside())(job)).rejects.toMatchObject({ problem: found });
  });

  test("long lists come in pieces, and are whole again", async () => {
    const whole = {
      name: "x",
      lists: [{ long: Array.from({ length: 1201 }, (_, at) => ({ at })), short: [1] }],
      last: [],
    };
    behavior = ({ onmessage }) => {
      const sent = structuredClone(whole);
      const pieces = takenOut(sent);
      expect(pieces.map(({ items }) => items.length)).toEqual([500, 500, 201]);
      expect(sent).toEqual({ name: "x", lists: [{ long: [], short: [1] }], last: [] });
      for (const piece of pieces) onmessage?.({ data: { at: "piece", ...structuredClone(piece) } });
      onmessage?.({ data: { at: "done", value: sent } });
    };
    expect(await (await beside())(job)).toEqual(whole);
  });

  test("stopping ends the worker", async () => {
    const stop = new AbortController();
    behavior = () => stop.abort();
    await expect((await beside())(job, { signal: stop.signal })).rejects.toThrow();
    expect(made.map(({ ended }) => ended)).toEqual([true]);
  });

  test("a worker that does not start: the page computes, and stopping works there too", async () => {
    behavior = ({ onerror }) => onerror?.();
    const compute = await beside();
    const found = await compute(job);
    expect(found).toMatchObject({ times: 50 });
    const stop = new AbortController();
    const many: Job = { ...job, blocks: Array.from({ length: 5000 }, (_, at) => [at, (at * 7) % 11]) };
    await expect(compute(many, { signal: stop.signal, onShare: () => stop.abort() })).rejects.toThrow();
  });
});
