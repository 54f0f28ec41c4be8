// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { IDBFactory } from "fake-indexeddb";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { DeviceStore } from "../../src/device/store.ts";
import type { Role } from "../../src/model/http.ts";
import { App } from "../../src/report/app.tsx";
import { chooseStore } from "../../src/report/choose-store.ts";
import type { Fetch } from "../../src/report/load.ts";
import { study, studyEvents } from "../archive/scenario.ts";
import { answering, device } from "./server.ts";

let stores: DeviceStore[] = [];
const newStore = (name: string): DeviceStore => {
  const store = new DeviceStore(name);
  stores.push(store);
  return store;
};
beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(async () => {
  cleanup();
  for (const store of stores) await store.close();
  stores = [];
});

const identity = (role: Role) => ({ device, token: "token", role, name: "Priya Lindqvist", formerly: [] });

async function enrolled(role: Role = "reader"): Promise<DeviceStore> {
  const store = newStore("a device");
  await store.setMeta("identity", identity(role));
  return store;
}

function open(
  store: DeviceStore,
  fetcher: Fetch,
  { id = study as string | null, code = "", forgetCode = () => {} } = {},
) {
  const openStore = async () => store;
  const now = () => "2026-05-04T08:00:00.000Z";
  return render(
    <App
      openStore={openStore}
      fetcher={fetcher}
      now={now}
      app="0.1.0"
      study={id}
      code={code}
      forgetCode={forgetCode}
    />,
  );
}
const heading = async (): Promise<string> => (await screen.findByRole("heading", { level: 1 })).textContent ?? "";
/** Counts that must not show: answers, right ones, people, whatever is a figure. */
const figures = (): string[] => document.body.textContent?.match(/\d+/g) ?? [];
const offline: Fetch = async () => Promise.reject(new TypeError("no network"));

describe("a study that is not opened", () => {
  test("a lead is told that it is sealed, and sees not one figure", async () => {
    const { fetcher } = answering({ events: studyEvents({ revealed: false }), revealed: false, role: "lead" });
    open(await enrolled("lead"), fetcher);
    expect(await heading()).toBe("This study is sealed");
    expect(figures()).toEqual([]);
    expect(document.body.textContent).not.toContain("Steam first");
  });

  test("a reader is told that there is nothing opened, and sees not one figure", async () => {
    const { fetcher } = answering({ events: studyEvents({ revealed: false }), revealed: false });
    open(await enrolled(), fetcher);
    expect(await heading()).toBe("There is no opened study at this address");
    expect(figures()).toEqual([]);
  });

  test("an opened key with ballots known in outline only gives no result", async () => {
    const { fetcher } = answering({ events: studyEvents(), revealed: false, role: "lead" });
    open(await enrolled("lead"), fetcher);
    expect(await heading()).toBe("This study is sealed");
    expect(figures()).toEqual([]);
  });

  test("looking again after the reveal shows the result, from full texts", async () => {
    let opened = false;
    const sealed = answering({ events: studyEvents({ revealed: false }), revealed: false, role: "lead" }).fetcher;
    const revealed = answering({ events: studyEvents(), revealed: true, role: "lead" }).fetcher;
    open(await enrolled("lead"), (path, init) => (opened ? revealed : sealed)(path, init));
    expect(await heading()).toBe("This study is sealed");
    opened = true;
    fireEvent.click(screen.getByRole("button", { name: "Look again" }));
    await screen.findByRole("heading", { name: /14 of 24/ });
  });
});

describe("an opened study", () => {
  test("is drawn from the events: 14 of 24, 13 needed (scenario Q1)", async () => {
    const { fetcher } = answering({ events: studyEvents(), revealed: true });
    open(await enrolled(), fetcher);
    expect(await heading()).toMatch(/14 of 24.*13/);
    await waitFor(() => expect(document.title).toContain("Steam first?"));
  });

  test("stays readable without network, and says so", async () => {
    const store = await enrolled();
    open(store, answering({ events: studyEvents(), revealed: true }).fetcher);
    await screen.findByRole("heading", { name: /14 of 24/ });
    cleanup();
    open(store, offline);
    expect(await heading()).toMatch(/14 of 24/);
    expect(screen.getByText(/server cannot be reached/i)).toBeTruthy();
  });

  test("events that the opening knew and this device lacks stop the reader", async () => {
    // the three events of tray 24 never came; close and reveal name them
    const kept = studyEvents().filter((text) => JSON.parse(text).body.tray !== 24);
    expect(kept).toHaveLength(studyEvents().length - 3);
    const { fetcher } = answering({ events: kept, revealed: true });
    open(await enrolled(), fetcher);
    await screen.findByRole("heading", { level: 1 });
    expect(screen.getAllByRole("alert")[0]?.textContent).toMatch(/^Stop\. 3.records/);
  });

  test("without network and without a copy there is a sentence and a way to try again", async () => {
    open(await enrolled(), offline);
    await screen.findByRole("alert");
    expect(screen.getByRole("button", { name: "Try again" })).toBeTruthy();
  });
});

describe("a device that is not known yet", () => {
  test("asks for a code and a name, keeps what the server answers, and forgets the code in the address", async () => {
    const store = newStore("new");
    const { fetcher, asked } = answering({ events: studyEvents(), revealed: true });
    const forgetCode = vi.fn();
    open(store, fetcher, { code: "pea-oat-rye", forgetCode });
    fireEvent.input(await screen.findByLabelText(/name/i), { target: { value: "Priya Lindqvist" } });
    expect((screen.getByLabelText("Reader code") as HTMLInputElement).value).toBe("pea-oat-rye");
    fireEvent.click(screen.getByRole("button", { name: "Go on" }));
    await screen.findByRole("heading", { name: /14 of 24/ });
    expect(asked[0]).toEqual({ path: "/api/enroll", body: { code: "pea-oat-rye", name: "Priya Lindqvist" } });
    expect(await store.identity()).toEqual(identity("reader"));
    expect(forgetCode).toHaveBeenCalledOnce();
  });

  test("sends nothing while code or name is missing", async () => {
    const { fetcher, asked } = answering({ events: [], revealed: false });
    open(newStore("new"), fetcher);
    fireEvent.click(await screen.findByRole("button", { name: "Go on" }));
    await waitFor(() => expect(screen.getByRole("alert").textContent).toContain("Fill in"));
    expect(asked).toEqual([]);
  });

  test("a tablet's code does not make a reader", async () => {
    const store = newStore("new");
    open(store, answering({ events: [], revealed: false, role: "panel" }).fetcher, { code: "x" });
    fireEvent.input(await screen.findByLabelText(/name/i), { target: { value: "Priya Lindqvist" } });
    fireEvent.click(screen.getByRole("button", { name: "Go on" }));
    await waitFor(() => expect(screen.getByRole("alert").textContent).toContain("not for a reader"));
    expect(await store.identity()).toBeNull();
  });
});

describe("a device that was withdrawn", () => {
  const withdrawn: Fetch = async () =>
    new Response(JSON.stringify({ code: "access/not-enrolled", details: {}, errorId: "x" }), {
      status: 401,
      headers: { "content-type": "application/json" },
    });

  test("a reader is asked for a new code", async () => {
    open(await enrolled(), withdrawn);
    expect(await heading()).toBe("Read results");
    cleanup();
    open(await enrolled(), withdrawn, { id: null });
    expect(await heading()).toBe("Read results");
  });

  test("a lead is not turned into a reader", async () => {
    const store = await enrolled("lead");
    open(store, withdrawn);
    expect((await screen.findByRole("alert")).textContent).toContain("not enrolled");
    expect(screen.queryByLabelText("Reader code")).toBeNull();
    // the lead's own pages enroll a lead's device again
    const again = screen.getByRole("link", { name: "Enroll this device again" });
    expect(again.getAttribute("href")).toBe("/organizer/#/again");
  });
});

describe("without a study in the address", () => {
  test("the opened studies are listed with their titles", async () => {
    open(await enrolled(), answering({ events: studyEvents(), revealed: true }).fetcher, { id: null });
    expect(await heading()).toBe("Results");
    expect(screen.getByRole("link", { name: "Steam first?" }).getAttribute("href")).toBe(`./?study=${study}`);
  });

  test("an empty list says what belongs there", async () => {
    const sealed = answering({ events: studyEvents({ revealed: false }), revealed: false, role: "lead" });
    open(await enrolled("lead"), sealed.fetcher, { id: null });
    expect(await heading()).toBe("Results");
    expect(screen.queryByRole("link", { name: "Steam first?" })).toBeNull();
    expect(document.body.textContent).toContain("No study has been opened yet");
  });
});

describe("the way around", () => {
  const back = () => screen.queryByRole("link", { name: "Studies and tablets" });

  test("a lead finds the way back to the lead's pages, from the list and from a result; a reader has none", async () => {
    const lead = answering({ events: studyEvents(), revealed: true, role: "lead" }).fetcher;
    const store = await enrolled("lead");
    open(store, lead, { id: null });
    expect(await heading()).toBe("Results");
    expect(back()?.getAttribute("href")).toBe("/organizer/");
    cleanup();
    open(store, lead);
    await screen.findByRole("heading", { name: /14 of 24/ });
    expect(back()).not.toBeNull();
    cleanup();
    await store.setMeta("identity", identity("reader"));
    open(store, answering({ events: studyEvents(), revealed: true }).fetcher, { id: null });
    expect(await heading()).toBe("Results");
    expect(back()).toBeNull();
  });

  test("answers from elsewhere are offered with the list, and before any enrollment", async () => {
    open(await enrolled(), answering({ events: studyEvents(), revealed: true }).fetcher, { id: null });
    await heading();
    const name = /^Answers from elsewhere/;
    expect(screen.getByRole("link", { name }).getAttribute("href")).toBe("./?elsewhere");
    cleanup();
    open(newStore("new"), answering({ events: [], revealed: false }).fetcher);
    await screen.findByLabelText("Reader code");
    expect(screen.getByRole("link", { name }).getAttribute("href")).toBe("./?elsewhere");
  });
});

describe("which store the page reads", () => {
  test("the lead's, when this browser is a lead's; else its own, and no empty one is made for the lead", async () => {
    const own = await chooseStore();
    stores.push(own);
    expect(await own.identity()).toBeNull();
    expect((await indexedDB.databases()).map(({ name }) => name)).toEqual(["cloche-reader"]);
    const lead = newStore("cloche-lead");
    await lead.setMeta("identity", identity("lead"));
    const chosen = await chooseStore();
    stores.push(chosen);
    expect((await chosen.identity())?.role).toBe("lead");
  });
});
