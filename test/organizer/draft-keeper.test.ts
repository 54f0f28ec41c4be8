import "fake-indexeddb/auto";
import { afterEach, describe, expect, test, vi } from "vitest";
import { emptyPlan } from "../../src/design/readiness.ts";
import { knownFacts } from "../../src/device/pull.ts";
import { DeviceStore } from "../../src/device/store.ts";
import { foldStudy } from "../../src/log/fold.ts";
import type { Plan } from "../../src/model/plan.ts";
import { DraftKeeper, type KeepState } from "../../src/organizer/draft-keeper.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
const device = "6a1b7d90-55aa-4f0e-9d2b-0c7d1f3e9a42";
const stream = { kind: "study" as const, id: study };
const titled = (title: string): Plan => ({ ...emptyPlan(), title });

afterEach(() => vi.useRealTimers());

function keeperOn(store: DeviceStore, base: string | null, states: KeepState[] = []): DraftKeeper<Plan> {
  return new DraftKeeper({
    base,
    delayMs: 800,
    onState: (state) => states.push(state),
    save: async (before, plan) => {
      const fact = await store.append(device, "2026-05-03T14:02:00.000Z", {
        stream,
        kind: "draft-saved",
        body: { base: before, merged: [], plan },
      });
      return fact.id;
    },
  });
}

describe("drafts on fake-indexeddb", () => {
  test("what was typed is there when the browser opens the plan again", async () => {
    const name = `cloche-${crypto.randomUUID()}`;
    const first = new DeviceStore(name);
    const keeper = keeperOn(first, null);
    keeper.change(titled("Steam"));
    await keeper.flush();
    keeper.change(titled("Steam first?"));
    await keeper.flush();
    await first.close();

    const again = new DeviceStore(name);
    const state = foldStudy(await knownFacts(again, stream));
    expect(state.draft?.plan.title).toBe("Steam first?");
    expect(state.draft?.event).toBe(keeper.base);
    await again.close();
  });

  test("each draft names the one before, so that one version stands at the end", async () => {
    const store = new DeviceStore(`cloche-${crypto.randomUUID()}`);
    const keeper = keeperOn(store, null);
    for (const title of ["a", "b", "c"]) {
      keeper.change(titled(title));
      // not awaited: flushes that overlap must not fork the plan
      void keeper.flush();
    }
    await keeper.flush();
    const state = foldStudy(await knownFacts(store, stream));
    expect(state.otherDrafts).toEqual([]);
    expect(state.draft?.plan.title).toBe("c");
    await store.close();
  });
});

describe("when a draft is written", () => {
  const made = (save: (base: string | null, plan: Plan) => Promise<string>, states: KeepState[] = []) =>
    new DraftKeeper({ base: null, delayMs: 800, onState: (state) => states.push(state), save });

  test("keystrokes within the delay make one event, with the last of them", async () => {
    vi.useFakeTimers();
    const saved: string[] = [];
    const keeper = made(async (_base, plan) => {
      saved.push(plan.title);
      return "event";
    });
    for (const title of ["S", "St", "Ste"]) {
      keeper.change(titled(title));
      await vi.advanceTimersByTimeAsync(500);
    }
    expect(saved).toEqual([]);
    await vi.advanceTimersByTimeAsync(300);
    expect(saved).toEqual(["Ste"]);
    expect(keeper.dirty).toBe(false);
  });

  test("a write that fails says so, keeps the change and is tried again", async () => {
    const states: KeepState[] = [];
    let full = true;
    const saved: string[] = [];
    const keeper = made(async (_base, plan) => {
      if (full) throw new Error("no room");
      saved.push(plan.title);
      return "event";
    }, states);
    keeper.change(titled("kept in mind"));
    await keeper.flush();
    expect(states.at(-1)?.at).toBe("failed");
    expect(keeper.dirty).toBe(true);
    full = false;
    await keeper.flush();
    expect(saved).toEqual(["kept in mind"]);
    expect(states.at(-1)?.at).toBe("kept");
  });

  test("it is never called kept while the write is under way", async () => {
    const states: KeepState[] = [];
    let finish = (_id: string): void => undefined;
    const keeper = made(
      () =>
        new Promise<string>((done) => {
          finish = done;
        }),
      states,
    );
    keeper.change(titled("x"));
    const flushed = keeper.flush();
    expect(states.map(({ at }) => at)).toEqual(["waiting", "keeping"]);
    finish("event");
    await flushed;
    expect(states.at(-1)?.at).toBe("kept");
  });
});
