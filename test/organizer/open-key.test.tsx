// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, screen } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";
import { outlineOf, readEvent, readOutline } from "../../src/log/facts.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { OpenKey } from "../../src/organizer/open-key.tsx";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { study, studyEvents } from "../archive/scenario.ts";
import { asLead, newLead, now } from "./lead-page.tsx";

afterEach(cleanup);

test.each([
  ["every answer is here: the way to the result", false, 1],
  ["the key is open here, and answers are outlines still: no way to a page that would call it sealed", true, 0],
])("%s", async (_name, outlined, links) => {
  const facts = studyEvents().flatMap((text) => {
    const found = readEvent(text);
    return found.ok && found.fact ? [found.fact] : [];
  });
  const known = facts.map((fact) =>
    outlined && fact.kind === "answer-kept" ? (readOutline(outlineOf(fact), fact.hash) ?? fact) : fact,
  );
  const lead = await newLead();
  asLead(lead, <OpenKey id={study} state={foldStudy(known)} fetching={{ at: now, thrown: null }} />);
  expect(screen.queryAllByRole("link", { name: lockWords.open.report })).toHaveLength(links);
  expect(screen.queryAllByText(lockWords.open.sending)).toHaveLength(1 - links);
  cleanup();
  await lead.store.close();
});
