// @vitest-environment happy-dom
import { fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { readCardCheck } from "../../src/panel/card-check.ts";
import { CheckPage } from "../../src/panel/tools/check-page.tsx";
import type { Surroundings } from "../../src/panel/tools/surroundings.ts";
import { Wipe } from "../../src/panel/tools/wipe.tsx";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelTools } from "../../src/words/en/panel-tools.ts";
import { button, heading, newTablet, putAway, start } from "./hands.tsx";
import type { Tablet } from "./tablet.ts";

const { check, wipe } = panelTools;
let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(async () => {
  vi.restoreAllMocks();
  await putAway(tablet);
});

const good: Surroundings = {
  secure: true,
  persisted: async () => true,
  askToPersist: async () => true,
  cached: async () => true,
  installed: () => true,
  staysAwake: async () => true,
};
const page = (around: Partial<Surroundings> = {}, lengthMm: number | null = 120) =>
  render(
    <CheckPage
      store={tablet.store}
      glass={() => tablet.glass}
      instant={tablet.clock.instant}
      lengthMm={lengthMm}
      back={() => {}}
      around={{ ...good, ...around }}
    />,
  );
/** The verdict and what is said under the name of an item. */
async function item(name: string): Promise<{ verdict: string; says: string }> {
  const term = await screen.findByText(name);
  const row = term.closest("div") as HTMLElement;
  await waitFor(() => expect(row.querySelector(".verdict")?.textContent).not.toBe(check.states.looking));
  return {
    verdict: row.querySelector(".verdict")?.textContent ?? "",
    says: row.querySelector("dd")?.textContent ?? "",
  };
}

describe("checking a tablet", () => {
  test("all well: every item says ok in words", async () => {
    await tablet.measured();
    page();
    for (const { name } of [check.storage, check.lasting, check.offline, check.installed, check.awake, check.line])
      expect((await item(name)).verdict).toBe(check.states.ok);
  });

  test("what fails says what to do; what the browser does not tell is not called ok", async () => {
    vi.spyOn(tablet.store, "setMeta").mockRejectedValue(new DOMException("full", "QuotaExceededError"));
    page({
      persisted: async () => null,
      cached: async () => false,
      installed: () => false,
      staysAwake: async () => null,
    });
    expect(await item(check.storage.name)).toMatchObject({
      verdict: check.states.bad,
      says: check.storage.bad("full"),
    });
    expect(await item(check.lasting.name)).toEqual({ verdict: check.states.unknown, says: check.lasting.unknown });
    expect(await item(check.offline.name)).toEqual({ verdict: check.states.bad, says: check.offline.bad });
    expect(await item(check.installed.name)).toEqual({ verdict: check.states.bad, says: check.installed.bad });
    expect(await item(check.awake.name)).toEqual({ verdict: check.states.unknown, says: check.awake.unknown });
    expect((await item(check.line.name)).verdict).toBe(check.states.unknown);
  });

  test("storage that gives back something else is not ok", async () => {
    vi.spyOn(tablet.store, "setMeta").mockResolvedValue(undefined);
    page();
    expect((await item(check.storage.name)).verdict).toBe(check.states.bad);
  });

  test("not lasting yet: asked for on a press, and the answer is shown", async () => {
    let promised = false;
    page({
      persisted: async () => promised,
      askToPersist: async () => {
        promised = true;
        return true;
      },
    });
    expect((await item(check.lasting.name)).verdict).toBe(check.states.bad);
    fireEvent.click(button(check.lasting.ask));
    await waitFor(async () => expect((await item(check.lasting.name)).verdict).toBe(check.states.ok));
  });

  test("without a secure address it says that this is why", async () => {
    page({ secure: false, cached: async () => false });
    expect((await item(check.offline.name)).says).toBe(check.offline.insecure);
  });
});

describe("measuring with a card", () => {
  const bar = () => screen.findByRole("slider", { name: check.line.bar });

  test("by keys and by buttons, then kept: 445 px on a card of 85.60 mm are 5.199 a millimeter", async () => {
    page();
    const slider = await bar();
    // 85.60 / 25.4 * 96 = 323.5: a card at the nominal 96 CSS pixels an inch
    expect(slider.getAttribute("aria-valuenow")).toBe("324");
    for (let i = 0; i < 12; i++) fireEvent.keyDown(slider, { key: "PageUp" });
    await waitFor(() => expect(slider.getAttribute("aria-valuenow")).toBe("444"));
    fireEvent.click(button(check.line.steps["1"] ?? ""));
    await waitFor(() => expect(slider.getAttribute("aria-valuenow")).toBe("445"));
    fireEvent.click(button(check.line.matches));
    await screen.findByText(check.line.kept);
    const kept = await readCardCheck(tablet.store);
    expect(kept?.pxPerMm).toBeCloseTo(5.1986, 4);
    expect(kept?.pixelRatio).toBe(2);
    await waitFor(async () => expect((await item(check.line.name)).verdict).toBe(check.states.ok));
    const line = document.querySelector<HTMLElement>(".checks .rule");
    expect(Number.parseFloat(line?.style.width ?? "")).toBeCloseTo(120 * 5.1986, 1);
    expect(screen.getByText(check.line.fits(120))).toBeTruthy();
  });

  test.each([
    [{ widthPx: 600 }, 120, check.line.turn(120)],
    [{}, 190, check.line.small(190)],
    [{ pixelRatio: 3 }, 120, check.line.zoomed],
  ])("%j: not ok for a line of %i mm, in words", async (glass, lengthMm, says) => {
    await tablet.measured();
    tablet.glass = { ...tablet.glass, ...glass };
    page({}, lengthMm);
    const found = await item(check.line.name);
    expect(found.verdict).toBe(check.states.bad);
    expect(found.says).toContain(says);
    expect(document.querySelector(".checks .rule")).toBeNull();
  });

  test("a study without a line asks for nothing more than the measuring", async () => {
    await tablet.measured();
    page({}, null);
    expect((await item(check.line.name)).verdict).toBe(check.states.ok);
  });
});

test("both pages of the staff open from a tablet at rest, and lead back to it", async () => {
  await start(tablet);
  fireEvent.click(button(words.tools.check));
  await heading(check.title);
  fireEvent.click(button(check.back));
  await heading(words.rest.title);
  fireEvent.click(button(words.tools.wipe));
  await heading(wipe.title);
  for (let i = 0; i < 3; i++) fireEvent.keyDown(button(wipe.hold), { key: "Enter" });
  await heading(words.rest.title);
});

describe("wiping the screen", () => {
  const left = vi.fn();
  const at = (x: number, more: object = {}) => ({
    pointerId: 1,
    isPrimary: true,
    button: 0,
    clientX: x,
    clientY: 100,
    bubbles: true,
    ...more,
  });
  const cover = () => {
    left.mockReset();
    render(<Wipe clock={tablet.clock} leave={left} />);
    return within(document.body).getByRole("button", { name: wipe.hold });
  };
  const send = (target: Element | Window, kind: string, init: object) =>
    fireEvent(target, new PointerEvent(kind, init));
  /** The page has drawn itself, and listens. */
  const ready = async (hold: HTMLElement) => waitFor(() => expect(document.activeElement).toBe(hold));

  test("held for two seconds it ends; a tap, or a hold that is let go, does nothing", async () => {
    const hold = cover();
    await ready(hold);
    send(hold, "pointerdown", at(100));
    tablet.clock.pass(1999);
    send(hold, "pointerup", at(100));
    tablet.clock.pass(5000);
    fireEvent.click(hold);
    expect(left).not.toHaveBeenCalled();
    send(hold, "pointerdown", at(100));
    tablet.clock.pass(2000);
    expect(left).toHaveBeenCalledTimes(1);
  });

  test("a cloth that moves over it, and a second finger, do not end it", async () => {
    const hold = cover();
    await ready(hold);
    send(hold, "pointerdown", at(100));
    send(hold, "pointermove", at(125));
    tablet.clock.pass(3000);
    send(hold, "pointerdown", at(100));
    send(document.body, "pointerdown", at(300, { pointerId: 2, isPrimary: false }));
    tablet.clock.pass(3000);
    expect(left).not.toHaveBeenCalled();
  });

  test("touches are taken away from the browser too", () => {
    cover();
    const main = document.querySelector("main") as HTMLElement;
    for (const kind of ["touchstart", "touchmove", "contextmenu", "wheel"])
      expect(fireEvent(main, new Event(kind, { cancelable: true, bubbles: true }))).toBe(false);
  });

  test("by keys: three presses, each within three seconds of the last; a key held down is one", () => {
    const hold = cover();
    const press = (repeat = false) => fireEvent.keyDown(hold, { key: "Enter", repeat });
    press();
    for (let i = 0; i < 10; i++) press(true);
    tablet.clock.pass(3001);
    press();
    press();
    expect(left).not.toHaveBeenCalled();
    press();
    expect(left).toHaveBeenCalledTimes(1);
  });
});
