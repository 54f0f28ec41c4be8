// @vitest-environment happy-dom
import { cleanup, render } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { BackupBallots } from "../../src/organizer/paper-ballots.tsx";
import { rankingPlan } from "../design/scenario.ts";

afterEach(cleanup);

test.each([3, 4])(
  "%i samples on paper: each code in serving order with one box for its place, and nothing of the products",
  (count) => {
    const whole = rankingPlan();
    const plan = rankingPlan({
      products: whole.products.slice(0, count),
      ranking: { ...whole.ranking, predicted: [] },
    });
    const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
    const trays = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
    const packet = blindPacketOf(plan, study, trays.blind, "0".repeat(64));
    const { container } = render(<BackupBallots packet={packet} size="a4" />);
    const leaves = [...container.querySelectorAll(".leaf")];
    expect(leaves.length).toBe(packet.trays.length);
    for (const [at, leaf] of leaves.entries()) {
      const answers = [...leaf.querySelectorAll(".leaf-answer")];
      // a code is there twice: once as it is read out, with spaces, once as it is seen
      expect(answers.map(({ textContent }) => textContent?.match(/\d{3}(?=\D*$)/)?.[0])).toEqual(
        packet.trays[at]?.codes,
      );
      expect(answers.map((answer) => answer.querySelectorAll(".box").length)).toEqual(answers.map(() => 1));
      expect(leaf.textContent).toContain(`1 for least juicy, ${count} for most juicy`);
      expect(leaf.textContent).toContain("Juice that is felt in the mouth while chewing.");
    }
    for (const { name } of plan.products.slice(2)) expect(container.textContent).not.toContain(name);
  },
);
