// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, expect, test } from "vitest";
import type { Raw } from "../../src/model/raw.ts";
import { Drawn, saidOfRaw } from "../../src/organizer/ledger-drawn.tsx";
import { ledgerWords as words } from "../../src/words/en/organizer-ledger.ts";
import { ledgerOf } from "../analysis/ledger-example.ts";
import { readyPlan } from "../design/scenario.ts";
import { attachmentOf, claimOf, measureOf } from "../log/claim-example.ts";

afterEach(cleanup);

const study = attachmentOf().study;
const claim = claimOf({ measures: [measureOf()] });
const standing = (raw: Raw, waits: "draft" | "sealed" = "sealed", id = study) => ({
  ...{ id, waits },
  plan: readyPlan({ title: "Juicier after steam?", raw }),
});
const drawn: Raw = { drawn: "drawn", unit: "pieces", divided: false, perBatch: 2 };

test("a draw is offered from locked plans of attached studies that say anything of it", () => {
  const said = { study, title: "Juicier after steam?" };
  expect(saidOfRaw(claim, [standing(drawn)])).toEqual([{ ...said, drawn: "drawn" }]);
  expect(saidOfRaw(claim, [standing({ drawn: "not-drawn" })])).toEqual([{ ...said, drawn: "not-drawn" }]);
  expect(saidOfRaw(claim, [standing({ drawn: "unknown" })])).toEqual([]);
  expect(saidOfRaw(claim, [standing(drawn, "draft")])).toEqual([]);
  expect(saidOfRaw(claim, [standing(drawn, "sealed", "5b1c2d3e-0000-4000-8000-000000000000")])).toEqual([]);
});

test("one press takes it, and the offer is gone; by hand it can be said otherwise", () => {
  function Ledger() {
    const [ledger, set] = useState(ledgerOf([[], []]));
    return <Drawn hand={{ id: "x", ledger, result: null, set }} said={saidOfRaw(claim, [standing(drawn)])} />;
  }
  render(<Ledger />);
  const field = screen.getByLabelText<HTMLSelectElement>(words.drawn);
  const offer = words.drawnFrom("Juicier after steam?", "drawn");
  expect(field.value).toBe("unknown");
  fireEvent.click(screen.getByText(offer));
  expect(field.value).toBe("drawn");
  expect(screen.queryByText(offer)).toBeNull();
  fireEvent.change(field, { target: { value: "not-drawn" } });
  expect(screen.getByText(offer)).toBeTruthy();
});
