// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { App } from "../../src/organizer/app.tsx";
import type { Lead } from "../../src/organizer/app-context.ts";
import { againAddress } from "../../src/organizer/route.ts";
import { neverSent, type Sent } from "../../src/organizer/status.ts";
import { organizer } from "../../src/words/en/organizer.ts";
import { readyPlan } from "../design/scenario.ts";
import { device, newLead, now, stream } from "./lead-page.tsx";

const next = "3c0e5d1a-7f42-4b8e-9a61-5d2b8c4e7f30";
const words = organizer.setup;
let lead: Lead;
let listener: ((sent: Sent) => void) | null;
const tell = (sent: Sent): void => listener?.(sent);
let sendings: number;
let enrolled: unknown[];

beforeEach(async () => {
  lead = await newLead();
  await lead.store.append(device, now, {
    stream,
    kind: "draft-saved",
    body: { base: null, merged: [], plan: readyPlan() },
  });
  listener = null;
  sendings = 0;
  enrolled = [];
});
afterEach(async () => {
  cleanup();
  vi.restoreAllMocks();
  window.location.hash = "";
  await lead.store.close();
});

/** A server that knows nobody until it is given a code; the app at an address. */
async function open(hash: string): Promise<void> {
  window.location.hash = hash;
  // this DOM tells of a changed address where browsers keep silent
  vi.spyOn(window.history, "replaceState").mockImplementation(() => {});
  const json = (status: number, body: unknown) =>
    new Response(JSON.stringify(body), { status, headers: { "content-type": "application/json" } });
  const fetcher = async (path: string, init: RequestInit): Promise<Response> => {
    if (path !== "/api/enroll") return json(401, { code: "access/not-enrolled", details: {}, errorId: "x" });
    const body = JSON.parse(String(init.body));
    enrolled.push(body);
    const incarnation = "99999999-9999-4999-8999-999999999999";
    return json(200, { device: next, token: "a new token", role: "lead", name: body.name, incarnation });
  };
  const sendNow = async (): Promise<void> => {
    sendings += 1;
  };
  const onSent = (heard: (sent: Sent) => void) => {
    listener = heard;
    heard(neverSent);
    return () => {};
  };
  render(
    <App store={lead.store} fetcher={fetcher} now={() => now} sendNow={sendNow} onSent={onSent} onUpdate={() => {}} />,
  );
  // a browser that was never set up has nothing to be told of sending
  const waiting = (await lead.store.identity()) === null;
  await waitFor(() => expect(waiting || listener !== null).toBe(true));
}
const heading = (name: string) => screen.findByRole("heading", { name, level: 1 });
const unknown: Sent = { at: null, failed: true, unknown: true };

/** The form is filled but for the code, which is typed. */
async function setUpAgain(code: string | null): Promise<void> {
  await heading(words.again.heading);
  if (code !== null) fireEvent.input(screen.getByLabelText(words.code), { target: { value: code } });
  fireEvent.click(screen.getByRole("button", { name: words.submit }));
  await heading(organizer.bar.studies);
}

test("a browser that the server does not know says so, is set up again, and keeps all it holds", async () => {
  await open("");
  await heading(organizer.bar.studies);
  expect(screen.queryByText(organizer.status.again)).toBeNull();
  tell(unknown);
  const link = await screen.findByRole("link", { name: organizer.status.again });
  expect(link.closest("p")?.textContent).toContain(organizer.status.unknown);
  expect(link.getAttribute("href")).toBe(againAddress);
  const before = await lead.store.ownRows();
  window.location.hash = againAddress;
  await setUpAgain("7K3M-9QXD");
  expect(enrolled).toEqual([{ code: "7K3M-9QXD", name: "Odalys Brandt", formerly: [device] }]);
  expect(await lead.store.identity()).toMatchObject({ device: next, formerly: [device] });
  expect(await lead.store.ownRows()).toEqual(before);
  expect(sendings).toBe(1);
  expect(await screen.findByRole("link", { name: readyPlan().title })).toBeTruthy();
});

test("the set-up address of a new server leads there too, with its code in the field", async () => {
  await open("#setup=7K3M-9QXD-AAAA-BBBB");
  await screen.findByText(organizer.loading);
  tell(unknown);
  await setUpAgain(null);
  expect(enrolled).toEqual([{ code: "7K3M-9QXD-AAAA-BBBB", name: "Odalys Brandt", formerly: [device] }]);
});

test("a browser that the server knows is not set up twice: its code stays unused", async () => {
  await open("#setup=7K3M-9QXD-AAAA-BBBB");
  await screen.findByText(organizer.loading);
  tell({ at: now, failed: false, unknown: false });
  await screen.findByText(`${words.already} ${words.codeUnused}`);
  window.location.hash = againAddress;
  await screen.findByText(words.already);
  await waitFor(() => expect(enrolled).toEqual([]));
});

test("a set-up address opened in a tab that stands at the form fills in its code, and keeps the name that was typed", async () => {
  await lead.store.setMeta("identity", null);
  await open("");
  await heading(words.heading);
  fireEvent.input(screen.getByLabelText(words.name), { target: { value: "Odalys Brandt" } });
  window.location.hash = "#setup=7K3M-9QXD-AAAA-BBBB";
  await waitFor(() => expect(screen.getByLabelText<HTMLInputElement>(words.code).value).toBe("7K3M-9QXD-AAAA-BBBB"));
  expect(screen.getByLabelText<HTMLInputElement>(words.name).value).toBe("Odalys Brandt");
});
