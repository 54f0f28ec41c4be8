// @vitest-environment happy-dom
import { cleanup, render } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { BackupBallots } from "../../src/organizer/paper-ballots.tsx";
import { TrayCards } from "../../src/organizer/paper-cards.tsx";
import { WeighingSheet } from "../../src/organizer/paper-weighing.tsx";
import { chewPlan } from "../design/scenario.ts";

afterEach(cleanup);

const plan = chewPlan();
const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
const { blind, seats } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
const commitment = "0".repeat(64);
const packet = blindPacketOf(plan, study, blind, commitment);
const kdf = { rounds: 600_000, salt: "00".repeat(16) };
const sealed = { v: 1 as const, study, commitment, iv: "00".repeat(12), ciphertext: "", kdf };
const lock = { plan, packet, sealed, seats, app: "test" };
/** A code is there twice: once as it is read out, with spaces, once as it is seen. */
const codesIn = (of: Element): string[] => [...of.querySelectorAll(".code")].map((code) => code.textContent.slice(-3));
const told = [plan.title, ...plan.products.flatMap(({ name, preparation }) => [name, preparation])];

test("the weighing sheet has every cup of every tray once, in serving order, and nothing of a product", () => {
  const { container } = render(<WeighingSheet lock={lock} size="a4" />);
  expect(codesIn(container)).toEqual(packet.trays.flatMap(({ codes }) => codes));
  expect(container.querySelectorAll(".checks tbody tr").length).toBe(packet.trays.length * 3);
  for (const text of told) expect(container.textContent).not.toContain(text);
});

test("a backup ballot asks of each portion for real seconds and whether all of it was spat out", () => {
  const { container } = render(<BackupBallots packet={packet} size="a4" />);
  const leaves = [...container.querySelectorAll(".leaf")];
  expect(leaves.map(codesIn)).toEqual(packet.trays.map(({ codes }) => codes));
  for (const leaf of leaves) expect(leaf.querySelectorAll(".leaf-body .box").length).toBe(6);
  for (const text of told) expect(container.textContent).not.toContain(text);
});

test("a card says that all is spat out, each portion into its own closed cup, and nothing of a product", () => {
  const { container } = render(<TrayCards lock={lock} size="a4" />);
  const cards = [...container.querySelectorAll(".card")];
  expect(cards.map(codesIn)).toEqual(packet.trays.map(({ codes }) => codes));
  for (const card of cards) expect(card.textContent).toMatch(/All of it is spat out\. .*own opaque cup.*lid on/);
  for (const text of told) expect(container.textContent).not.toContain(text);
});
