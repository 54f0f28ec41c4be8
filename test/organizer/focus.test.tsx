// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { foldStudy } from "../../src/log/fold.ts";
import type { Plan } from "../../src/model/plan.ts";
import { type Lead, LeadContext } from "../../src/organizer/app-context.ts";
import { PartSafety } from "../../src/organizer/part-safety.tsx";
import { PartSamples } from "../../src/organizer/part-samples.tsx";
import { PartServing } from "../../src/organizer/part-serving.tsx";
import { PlanPage } from "../../src/organizer/plan-page.tsx";
import type { Draft } from "../../src/organizer/use-draft.ts";
import { Withdraw } from "../../src/organizer/withdraw.tsx";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { tabletWords } from "../../src/words/en/organizer-tablets.ts";
import { readyPlan } from "../design/scenario.ts";
import { asLead, device, newLead, now, stream, study } from "./lead-page.tsx";

afterEach(cleanup);

/** A part of the plan page with a plan behind it that changes as it is edited. */
function Part({ plan: first, of: Fields }: { plan: Plan; of: (props: { draft: Draft }) => preact.ComponentChildren }) {
  const [plan, setPlan] = useState(first);
  const draft: Draft = { plan, edit: (change) => setPlan(change), flush: async () => {} };
  return <Fields draft={draft} />;
}
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole("button", { name }));
const focused = (id: string) => waitFor(() => expect(document.activeElement?.id).toBe(id));

describe("where the focus goes when its button is gone", () => {
  test("a second product: to its name; one less: to the button that adds", async () => {
    const plan = readyPlan();
    render(<Part plan={{ ...plan, products: plan.products.slice(0, 1) }} of={PartSamples} />);
    press(planWords.samples.add);
    await focused("product-1-name");
    press(planWords.samples.remove("current"));
    await focused("samples-add");
  });

  test("a new wave: to its time; one less: to the button that adds", async () => {
    render(<Part plan={readyPlan()} of={PartServing} />);
    press(planWords.serving.add);
    await focused("wave-2-starts");
    press(planWords.serving.remove(2));
    await focused("serving-add");
  });

  test("a declaration that is begun: to its summary", async () => {
    const lead = await newLead();
    asLead(lead, <Part plan={readyPlan({ declarations: [] })} of={PartSafety} />);
    press(planWords.safety.declare(planWords.safety.of.cleanser ?? ""));
    await focused("declare-cleanser");
    expect(document.activeElement?.tagName).toBe("SUMMARY");
    cleanup();
    await lead.store.close();
  });

  test("a device that is to be withdrawn: to No, and from No back", async () => {
    render(<Withdraw device={{ id: device, name: "Booth 1" }} onYes={() => {}} />);
    press(/Booth 1$/);
    await waitFor(() => expect(document.activeElement?.textContent).toBe(tabletWords.no));
    press(tabletWords.no);
    await focused(`withdraw-${device}`);
  });
});

describe("on the plan page", () => {
  let lead: Lead;
  beforeEach(async () => {
    lead = await newLead();
  });
  afterEach(async () => {
    cleanup();
    await lead.store.close();
  });

  test("the next part begins at its heading; after an undo it is the part at hand", async () => {
    const draft = await lead.store.append(device, now, {
      stream,
      kind: "draft-saved",
      body: { base: null, merged: [], plan: readyPlan({ title: "" }) },
    });
    render(
      <LeadContext.Provider value={lead}>
        <PlanPage id={study} state={foldStudy([draft])} fetching={{ at: now, thrown: null }} field={null} />
      </LeadContext.Provider>,
    );
    press(`${planWords.nextPart}: ${planWords.parts.method}`);
    await focused("part-method");
    for (const part of ["people", "samples"] as const) press(`${planWords.nextPart}: ${planWords.parts[part]}`);
    await focused("part-samples");
    press(planWords.samples.remove("current"));
    await focused("samples-add");
    press(/^Undo: Removed/);
    await focused("part-samples");
  });
});
