// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test } from "vitest";
import { knownFacts } from "../../src/device/pull.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { rehearsalAsked } from "../../src/model/rehearsal.ts";
import { read } from "../../src/model/schema.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { runRehearsal } from "../../src/organizer/rehearsal-run.ts";
import { RehearsePage } from "../../src/organizer/rehearse-page.tsx";
import type { Player } from "../../src/organizer/use-rehearsal.ts";
import { readyPlan, stepsPlan } from "../design/scenario.ts";
import { asLead, device, newLead, now, stream, study } from "./lead-page.tsx";

let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

const fetching = { thrown: null, at: null } as const;
const text = (): string => document.body.textContent?.replaceAll("\u00a0", " ") ?? "";

/** The worker's own code, in this thread; `stuck`: it never answers. */
function playerHere(stuck = false): Player & { ended: boolean } {
  const player: Player & { ended: boolean } = {
    ended: false,
    onmessage: null,
    onerror: null,
    terminate() {
      player.ended = true;
    },
    postMessage(asked: unknown) {
      if (stuck) return;
      // few plays: what is shown does not hang on how many
      const few = { ...read(rehearsalAsked, structuredClone(asked)), plays: 40 };
      runRehearsal(
        few,
        "0",
        () => 0,
        (news) => player.onmessage?.call(player as unknown as Worker, new MessageEvent("message", { data: news })),
      );
    },
  };
  return player;
}

async function open(player: Player, plan = readyPlan()): Promise<number> {
  const body = { base: null, merged: [], plan };
  await lead.store.append(device, now, { stream, kind: "draft-saved", body });
  const facts = await knownFacts(lead.store, stream);
  const state = foldStudy(facts);
  asLead(lead, <RehearsePage id={study} state={state} fetching={fetching} start={() => player} />);
  return facts.length;
}

test("a plan is played: how often it finds and how often it cries wolf, beside the exact test; nothing is written", async () => {
  const before = await open(playerHere());
  fireEvent.click(screen.getByText("Play", { exact: true }));
  await waitFor(() => expect(text()).toContain("What came of it"));
  expect(text()).toMatch(/30 % of people can tell\. \d+ of 40 studies found a difference\./);
  expect(text()).toContain("Nobody can tell.");
  // 13 of 24 at 1/3: 0.0284; at 0.5333: 0.5505 (binomial tails, R 4.2.2)
  expect(text()).toContain("The exact test of the plan gives 55.0 %.");
  expect(text()).toContain("The exact test of the plan gives 2.8 %.");
  expect(screen.getAllByText("Invented. Nobody tasted anything.")).toHaveLength(3);
  expect(await knownFacts(lead.store, stream)).toHaveLength(before);
});

test("playing can be stopped, and then nothing came of it", async () => {
  const player = playerHere(true);
  await open(player);
  fireEvent.click(screen.getByText("Play", { exact: true }));
  await waitFor(() => expect(text()).toContain("0 of 2000 played"));
  fireEvent.click(screen.getByText("Stop playing"));
  await waitFor(() => expect(text()).toContain("Stopped. Nothing was kept."));
  expect(player.ended).toBe(true);
});

test("a browser that starts no worker says so", async () => {
  const body = { base: null, merged: [], plan: readyPlan() };
  await lead.store.append(device, now, { stream, kind: "draft-saved", body });
  const state = foldStudy(await knownFacts(lead.store, stream));
  const none = (): Player => {
    throw new TypeError("no workers here");
  };
  asLead(lead, <RehearsePage id={study} state={state} fetching={fetching} start={none} />);
  fireEvent.click(screen.getByText("Play", { exact: true }));
  await waitFor(() => expect(text()).toContain("The rehearsal broke off."));
});

test("a scale of five steps: points are of the whole scale, and one step is 25 of them", async () => {
  await open(playerHere(), stepsPlan());
  await waitFor(() => expect(text()).toContain("of your 5 steps one is 25 points"));
});
