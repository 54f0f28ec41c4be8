// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test } from "vitest";
import { knownFacts } from "../../src/device/pull.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { emptyClaim } from "../../src/model/claim.ts";
import type { Product } from "../../src/model/plan.ts";
import { appendEvent, type Lead } from "../../src/organizer/app-context.ts";
import { withMeasure } from "../../src/organizer/claim-edit.ts";
import { MassesPage } from "../../src/organizer/masses-page.tsx";
import { massesWords as words } from "../../src/words/en/organizer-masses.ts";
import { ledgerOf, scenarioRows } from "../analysis/ledger-example.ts";
import { Writer } from "../log/example.ts";
import { asLead, newLead, stream, study } from "./lead-page.tsx";

const claim = "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee";
const measure = "aaaaaaaa-bbbb-4ccc-8ddd-ffffffffffff";
let lead: Lead;
const locked = new Writer().lock();
const products = (locked.kind === "study-locked" && !locked.outline ? locked.body.plan.products : []) as Product[];

beforeEach(async () => {
  lead = await newLead();
  const begun = withMeasure(
    {
      ...emptyClaim(() => crypto.randomUUID()),
      title: "Steam first",
      first: products[0]?.name ?? "",
      second: "steamed",
    },
    measure,
  );
  const weighed = { ...ledgerOf(scenarioRows), products: ["", ""] };
  const measures = begun.measures.map((each) => ({ ...each, name: "cook loss", kind: "mass" as const, weighed }));
  await appendEvent(lead, {
    ...{ stream: { kind: "claim", id: claim }, kind: "claim-saved" },
    body: { base: null, merged: [], claim: { ...begun, measures }, known: [] },
  });
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

const show = async () => {
  const facts = [locked, ...(await knownFacts(lead.store, stream))];
  asLead(lead, <MassesPage id={study} state={foldStudy(facts)} fetching={{ at: null, thrown: null }} />);
};

test("a ledger is put beside the answers once it is said which of its products are the study's", async () => {
  await show();
  fireEvent.click(await screen.findByLabelText(/cook loss/));
  const second = screen.getByLabelText(words.is("steamed")) as HTMLSelectElement;
  // the first goes by the study's own name, the second does not
  expect((screen.getByLabelText(words.is(products[0]?.name ?? "")) as HTMLSelectElement).value).toBe(products[0]?.id);
  expect(second.value).toBe("");
  fireEvent.click(screen.getByRole("button", { name: words.submit }));
  await screen.findByText(words.tooFew);
  expect(await knownFacts(lead.store, stream)).toEqual([]);
  fireEvent.change(second, { target: { value: products[1]?.id } });
  fireEvent.click(screen.getByRole("button", { name: words.submit }));
  await screen.findByText(words.done);
  const { masses } = foldStudy([locked, ...(await knownFacts(lead.store, stream))]);
  expect(masses?.body.sources).toMatchObject([
    {
      kind: "ledger",
      claim,
      title: "Steam first: cook loss",
      products: products.slice(0, 2).map(({ id }) => ({ product: id })),
    },
  ]);
});

test("without a ledger in any claim the page says where one lies", async () => {
  const bare = await newLead();
  asLead(bare, <MassesPage id={study} state={foldStudy([locked])} fetching={{ at: null, thrown: null }} />);
  await waitFor(() => expect(screen.getByText(words.toClaims).getAttribute("href")).toBe("#/claims"));
  await bare.store.close();
});
