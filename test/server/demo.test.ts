import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Ask, type Loading, prepareDemo } from "../../src/demo/load.ts";
import { readEvent } from "../../src/log/facts.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { type DeviceInfo, eventsReply, remarksReply } from "../../src/model/http.ts";
import { newEventId, newId } from "../../src/model/id.ts";
import { Problem } from "../../src/model/problem.ts";
import { read } from "../../src/model/schema.ts";
import { House } from "./house.ts";

/** The demo through the ordinary API of a real server. */
let house: House;
let token: string;
async function open(): Promise<void> {
  house = await House.open();
  token = (await house.lead()).token;
}

/** Each call as it comes. Of those that `cut` names the reply is lost on the way, as by a network that goes away. */
function askOf(cut: (path: string) => boolean = () => false): Ask {
  return async (schema, path, { token, body }) => {
    const call = { ...(token === undefined ? {} : { token }), ...(body === undefined ? {} : { body }) };
    const { status, json, text } = await house.call(body === undefined ? "GET" : "POST", path, call);
    if (status !== 200) throw new Error(`${path}: ${status} ${text}`);
    if (cut(path)) throw new Error("the network went away");
    return read(schema, json);
  };
}

const prepare = (ask: Ask): Promise<Loading> =>
  prepareDemo(ask, token, { newStudyId: newId, newEventId, offsetMinutes: 0, app: "test" });

/** What the server has of a study: the state folded from it, and what it keeps aside. */
async function stored(study: string) {
  const { json } = await house.call("GET", `/api/studies/${study}/events?after=0`, { token });
  const reply = read(eventsReply, json);
  const facts = reply.events.flatMap(({ text }) => {
    const event = text === null ? null : readEvent(text);
    return event?.ok && event.fact ? [event.fact] : [];
  });
  return { state: foldStudy(facts), aside: reply.quarantined + reply.held };
}

async function devices(): Promise<DeviceInfo[]> {
  const { json } = await house.call("GET", "/api/devices", { token });
  return (json as { devices: DeviceInfo[] }).devices;
}

describe("loaded once", () => {
  let loaded: Loading;
  beforeAll(async () => {
    await open();
    loaded = await prepare(askOf());
    await loaded.send();
  });
  afterAll(() => house.close());

  test("eleven studies are there to the last answer, one is locked; nothing is held or kept aside", async () => {
    const there = await Promise.all(loaded.studies.map(({ id }) => stored(id)));
    expect(there.map(({ aside }) => aside)).toEqual(Array(12).fill(0));
    const counted = there.map(({ state }) => [...state.trays.values()].filter((tray) => tray.counted).length);
    expect(counted.slice(0, 11)).toEqual([24, 60, 12, 36, 18, 24, 24, 12, 12, 60, 24]);
    expect(there.map(({ state }) => state.reveal !== null)).toEqual([...Array(11).fill(true), false]);
    expect(loaded.studies.map(({ revealed }) => revealed)).toEqual([...Array(11).fill(true), false]);
  });

  test("remarks arrive with their events", async () => {
    const { json } = await house.call("GET", `/api/studies/${loaded.studies[0]?.id}/remarks`, { token });
    expect(read(remarksReply, json).remarks.map(({ text }) => text)).toHaveLength(3);
  });

  test("the demo's own laptop and tablets are withdrawn once all is sent; the lead who loaded it stays", async () => {
    const list = await devices();
    const withdrawn = list.filter(({ revoked }) => revoked).map(({ name }) => name);
    expect(withdrawn.sort()).toEqual(["Odalys Brandt's laptop", "Tablet A", "Tablet B", "Tablet C"]);
    expect(list.filter(({ revoked }) => !revoked)).toHaveLength(1);
  });

  test("a second demo is refused, naming a study of the first, and leaves no trace", async () => {
    const before = await devices();
    const refused = await prepare(askOf()).catch((thrown: unknown) => thrown);
    expect(refused).toBeInstanceOf(Problem);
    expect((refused as Problem).problem).toMatchObject({
      code: "demo/already-there",
      details: { title: expect.stringMatching(/^Demo: /) },
    });
    expect(await devices()).toEqual(before);
  });
});

test.each([
  ["while events go out", "/api/events", 7],
  ["while the devices are withdrawn", "/api/devices/", 2],
])("a network that goes away %s: sending again adds the rest, and nothing twice", async (_, where, which) => {
  await open();
  let calls = 0;
  const ask = askOf((path) => {
    if (path.startsWith(where)) calls += 1;
    return path.startsWith(where) && calls === which;
  });
  const { studies, send } = await prepare(ask);
  await expect(send()).rejects.toThrow("the network went away");
  await send();
  const whole = await Promise.all(studies.map(({ id }) => stored(id)));
  expect(whole.map(({ aside }) => aside)).toEqual(Array(12).fill(0));
  expect(whole.map(({ state }) => state.rivals.length)).toEqual(Array(12).fill(0));
  expect([...(whole[1]?.state.trays.values() ?? [])].filter(({ counted }) => counted)).toHaveLength(60);
  expect((await devices()).filter(({ revoked }) => revoked)).toHaveLength(4);
  await house.close();
});
