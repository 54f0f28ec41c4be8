import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { BalanceLink } from "../../src/device/balance.ts";
import { firstBalanceSettings as settings } from "../../src/device/balance-settings.ts";
import type { BalanceLine } from "../../src/model/balance-line.ts";
import { FakePort, putSerial, serialWith } from "./serial-fake.ts";

/** Longer than any balance pauses within a line, and longer than anybody waits for a reading; of a clock set by hand. */
const [pauseMs, longMs] = [1000, 10_000];
let link: BalanceLink;
let port: FakePort;
let lines: BalanceLine[];
let lettings: number;
beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval"] });
  link = new BalanceLink();
  port = new FakePort();
  lines = [];
  lettings = 0;
  putSerial(serialWith([], port));
  link.wait({ line: (line) => lines.push(line), over: () => lettings++ });
});
afterEach(async () => {
  await link.disconnect();
  vi.useRealTimers();
  putSerial(undefined);
});
const grams = () => lines.map((line) => (line.kind === "reading" ? line.grams : line.why));
const until = (is: () => void) => vi.waitFor(is);
const problemNow = () => link.state().problem?.code;

describe("a balance on a serial port", () => {
  test("is opened as it is set, read in whatever pieces come, and closed", async () => {
    await link.connect({ ...settings, baud: 2400, dataBits: 7, parity: "even" });
    expect(port.opened).toEqual([{ baudRate: 2400, dataBits: 7, parity: "even", stopBits: 1 }]);
    port.send("4.5 g\r\nST,+00", "1234.5  ", "g\r", "\nUS,+001230.0  g\r\n");
    await until(() => expect(grams()).toEqual(["cut", "1234.5", "1230.0"]));
    expect(link.state()).toMatchObject({ link: "open", problem: null, last: { stable: false }, known: true });
    await link.disconnect();
    expect(link.state()).toMatchObject({ link: "closed", problem: null, known: true });
    expect([port.readable, lettings]).toEqual([null, 1]);
  });

  test("its first line counts when it was quiet before it: a print key was pressed", async () => {
    await link.connect(settings);
    vi.advanceTimersByTime(pauseMs);
    port.send("12.0 g\r\n");
    await until(() => expect(grams()).toEqual(["12.0"]));
  });

  test("a wrong byte spoils its line and no other", async () => {
    await link.connect(settings);
    port.send("\r\n12");
    await until(() => expect(port.readable?.locked).toBe(true));
    port.send("34");
    port.spoil();
    port.send(".5 g\r\n12.0 g\r\n");
    await until(() => expect(grams()).toEqual(["cut", "12.0"]));
    expect(link.state().link).toBe("open");
  });

  test("pulled off within a line: said so, that line is no reading, and it can be connected again", async () => {
    await link.connect(settings);
    port.send("\r\n12.0 g\r\n1234.5 g");
    await until(() => expect(grams()).toEqual(["12.0"]));
    port.pull();
    await until(() => expect(problemNow()).toBe("balance/lost"));
    expect([grams(), link.state().link, lettings]).toEqual([["12.0", "cut"], "closed", 1]);
    await link.connect(settings);
    expect(link.state()).toMatchObject({ link: "open", problem: null, last: null });
  });

  test("another speed opens the same port anew, without asking", async () => {
    await link.connect(settings);
    putSerial(serialWith([], new DOMException("nothing picked", "NotFoundError")));
    await link.connect({ ...settings, baud: 4800 });
    expect(port.opened.map(({ baudRate }) => baudRate)).toEqual([9600, 4800]);
    await link.connect(settings, true);
    expect(problemNow()).toBe("balance/none-chosen");
  });

  test("the only port that the page may use is opened without asking; of two the person picks one", async () => {
    const [first, second] = [new FakePort(), new FakePort()];
    putSerial(serialWith([first], second));
    await link.look();
    expect(link.state().known).toBe(true);
    await link.connect(settings);
    expect([first.opened.length, second.opened.length]).toEqual([1, 0]);
    const other = new BalanceLink();
    putSerial(serialWith([first, port], second));
    await other.connect(settings);
    expect([port.opened.length, second.opened.length]).toEqual([0, 1]);
    await other.disconnect();
  });

  test("one waits at a time", async () => {
    await link.connect(settings);
    const later: BalanceLine[] = [];
    const stop = link.wait({ line: (line) => later.push(line), over: () => {} });
    expect(lettings).toBe(1);
    port.send("\r\n12.0 g\r\n");
    await until(() => expect(later).toHaveLength(1));
    stop();
    port.send("13.0 g\r\n");
    await until(() => expect(link.state().last).toMatchObject({ grams: "13.0" }));
    expect([later.length, lines.length]).toEqual([1, 0]);
  });
});

describe("what keeps a balance from being read", () => {
  test.each([
    ["nothing picked", new DOMException("", "NotFoundError"), "balance/none-chosen"],
    ["a policy", new DOMException("", "SecurityError"), "balance/not-allowed"],
  ])("%s", async (_what, thrown, code) => {
    putSerial(serialWith([], thrown));
    await link.connect(settings);
    expect([link.state().link, problemNow()]).toEqual(["closed", code]);
  });

  test("a port that another window has open, and a browser without serial ports", async () => {
    port.refusal = new DOMException("Failed to open serial port.", "NetworkError");
    await link.connect(settings);
    expect(link.state().problem).toEqual({
      code: "balance/not-opened",
      details: { reason: "Failed to open serial port." },
    });
    putSerial(undefined);
    await link.connect(settings);
    expect(problemNow()).toBe("balance/not-offered");
  });

  test("bytes without sense for a while: the speed may be wrong, until a line can be read", async () => {
    await link.connect(settings);
    port.send("\u00f8\u0080\u00fe\u0000\u00f8\r\u00e6");
    await until(() => expect(link.state().last).not.toBeNull());
    vi.advanceTimersByTime(longMs);
    expect(problemNow()).toBe("balance/not-readable");
    port.send("\r\nOL,+9999.9  g\r\n");
    await until(() => expect(problemNow()).toBeUndefined());
  });

  test("silence is said once nothing ever came, and is no fault after a reading", async () => {
    await link.connect(settings);
    vi.advanceTimersByTime(longMs);
    expect(problemNow()).toBe("balance/nothing-yet");
    port.send("12.0 g\r\n");
    await until(() => expect(problemNow()).toBeUndefined());
    vi.advanceTimersByTime(longMs);
    expect(problemNow()).toBeUndefined();
  });
});
