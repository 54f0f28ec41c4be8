// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Direction, LineMark } from "../../src/ui/line-mark.ts";
import { LineScale } from "../../src/ui/line-scale.tsx";
import { panelLine } from "../../src/words/en/panel-line.ts";

// What a line must do, from the page on the looks of the tablet and from WAI-ARIA's slider pattern (from memory).
const { line: words } = panelLine;
const low = "not at all juicy";
const high = "extremely juicy";
const question = "How juicy is sample 482, at the first bite?";
/** The line stands from 100 to 500 on this screen, its band from 76 to 524, 96 high from 200 on. */
const lengthPx = 400;
const at = (x: number, y = 248, more: object = {}) => ({
  pointerId: 1,
  isPrimary: true,
  button: 0,
  pointerType: "touch",
  clientX: x,
  clientY: y,
  ...more,
});

let marks: (LineMark | null)[];
let time: number;
let timers: { due: number; run: () => void }[];
beforeEach(() => {
  marks = [];
  time = 0;
  timers = [];
});
afterEach(cleanup);

const after = (ms: number, run: () => void): (() => void) => {
  const timer = { due: time + ms, run };
  timers.push(timer);
  return () => {
    timers = timers.filter((one) => one !== timer);
  };
};
function pass(ms: number): void {
  time += ms;
  for (const timer of timers.filter(({ due }) => due <= time)) {
    timers = timers.filter((one) => one !== timer);
    timer.run();
  }
}

function Page({ before, direction, kept }: { before: LineMark | null; direction?: Direction; kept: boolean }) {
  const [mark, setMark] = useState(before);
  const onMark = (next: LineMark | null): void => {
    marks.push(next);
    setMark(next);
  };
  return (
    <>
      <h1 id="title">{question}</h1>
      <LineScale
        lengthPx={lengthPx}
        low={low}
        high={high}
        labelledBy="title"
        mark={mark}
        onMark={onMark}
        elapsed={() => time}
        after={after}
        words={words}
        kept={kept}
        {...(direction ? { direction } : {})}
      />
    </>
  );
}

const show = (before: LineMark | null = null, direction?: Direction, kept = false) => {
  const page = <Page before={before} kept={kept} {...(direction ? { direction } : {})} />;
  const drawn = render(page);
  band().getBoundingClientRect = () => new DOMRect(76, 200, lengthPx + 48, 96);
  return drawn;
};
const element = (selector: string): HTMLElement => {
  const found = document.querySelector<HTMLElement>(selector);
  if (!found) throw new Error(`nothing at ${selector}`);
  return found;
};
const band = () => element(".band");
const stroke = () => element(".stroke");
const slider = () => screen.getByRole("slider");
const empty = () => screen.getByRole("button", { name: `${question} ${words.none}` });
const said = () => element("[aria-live]").textContent;
const marked: LineMark = { fraction: 0.6, start: "pointer", moves: 0, firstMs: 900, pointer: "touch" };
/** Lets the page draw. */
const drawn = () => Promise.resolve().then(() => new Promise((done) => requestAnimationFrame(done)));

describe("before the first mark", () => {
  test("it is a button that says so, described by its ends; nothing has a value, and no mark shows", () => {
    show();
    expect(screen.queryByRole("slider")).toBeNull();
    expect(document.querySelector("[aria-valuenow], [aria-valuetext], input")).toBeNull();
    const describedBy = empty().getAttribute("aria-describedby") ?? "";
    expect(document.getElementById(describedBy)?.textContent).toBe(words.ends(low, high));
    expect(band().dataset.state).toBe("empty");
    expect(screen.queryByRole("button", { name: words.left })).toBeNull();
  });

  test.each([
    ["0", 0, "tenth"],
    ["6", 0.6, "tenth"],
    ["9", 0.9, "tenth"],
    ["Home", 0, "low-end"],
    ["End", 1, "high-end"],
    ["ArrowRight", 0, "low-end"],
    ["ArrowLeft", 1, "high-end"],
  ] as const)("the key %s places the mark at %f and keeps where it began", async (key, fraction, start) => {
    show();
    empty().focus();
    time = 1234;
    expect(fireEvent.keyDown(empty(), { key })).toBe(false);
    expect(marks).toEqual([{ fraction, start, moves: 0, firstMs: 1234, pointer: "keyboard" }]);
    await screen.findByRole("slider");
    expect(document.activeElement).toBe(slider());
  });

  test("a key that says no place, one with a modifier, and a press by an aid place nothing; the last says how", () => {
    show();
    fireEvent.keyDown(empty(), { key: "a" });
    fireEvent.keyDown(empty(), { key: "5", ctrlKey: true });
    fireEvent.keyDown(empty(), { key: "Tab" });
    fireEvent.click(empty(), { detail: 0 });
    expect(marks).toEqual([]);
    expect(said()).toBe(words.how);
  });
});

describe("with a mark", () => {
  test("it is a slider from 0 to 100 with a whole value, words for it, the question's name, lying flat", () => {
    show({ ...marked, fraction: 0.6149 });
    expect(slider().getAttribute("aria-valuemin")).toBe("0");
    expect(slider().getAttribute("aria-valuemax")).toBe("100");
    expect(slider().getAttribute("aria-valuenow")).toBe("61");
    expect(slider().getAttribute("aria-valuetext")).toBe(
      "about six tenths of the way from not at all juicy to extremely juicy",
    );
    expect(slider().getAttribute("aria-labelledby")).toBe("title");
    expect(slider().getAttribute("aria-orientation")).toBe("horizontal");
    expect(stroke().style.transform).toBe(`translateX(${0.6149 * lengthPx}px)`);
  });

  test.each([
    ["ArrowRight", 0.61],
    ["ArrowUp", 0.61],
    ["ArrowLeft", 0.59],
    ["ArrowDown", 0.59],
    ["PageUp", 0.7],
    ["PageDown", 0.5],
    ["Home", 0],
    ["End", 1],
  ])("%s moves it to %f", async (key, fraction) => {
    show(marked);
    fireEvent.keyDown(slider(), { key });
    expect(marks).toEqual([{ ...marked, fraction, moves: 1, pointer: "keyboard" }]);
    await drawn();
    expect(slider().getAttribute("aria-valuenow")).toBe(String(Math.round(fraction * 100)));
    expect(said()).toBe(""); // the slider says it
  });

  test("at an end it stays, and that is no move", () => {
    show({ ...marked, fraction: 1 });
    fireEvent.keyDown(slider(), { key: "ArrowRight" });
    fireEvent.click(screen.getByRole("button", { name: words.right }));
    expect(marks).toEqual([]);
  });

  test("Delete takes it away: a button again, with the focus, and said; the next mark begins where it begins", async () => {
    show(marked);
    slider().focus();
    fireEvent.keyDown(slider(), { key: "Delete" });
    await screen.findByRole("button", { name: `${question} ${words.none}` });
    expect(document.activeElement).toBe(empty());
    expect(said()).toBe(words.removed);
    expect(band().dataset.state).toBe("empty");
    time = 5000;
    fireEvent.keyDown(empty(), { key: "End" });
    expect(marks).toEqual([null, { fraction: 1, start: "high-end", moves: 1, firstMs: 900, pointer: "keyboard" }]);
  });

  test("two buttons move it by a two-hundredth of the line, without dragging", async () => {
    show(marked);
    fireEvent.click(screen.getByRole("button", { name: words.right }));
    await drawn();
    fireEvent.click(screen.getByRole("button", { name: words.right }));
    await drawn();
    fireEvent.click(screen.getByRole("button", { name: words.left }));
    expect(marks.map((mark) => mark?.fraction)).toEqual([0.605, 0.61, 0.605]);
    expect(marks.map((mark) => mark?.moves)).toEqual([1, 2, 3]);
  });
});

describe("pointer", () => {
  test("the value is set when the finger is lifted; while it is down the mark follows in gray", async () => {
    show();
    time = 700;
    fireEvent(band(), new PointerEvent("pointerdown", at(200)));
    expect(band().dataset.state).toBe("pressing");
    expect(stroke().style.transform).toBe("translateX(100px)");
    fireEvent(band(), new PointerEvent("pointermove", at(340)));
    expect(stroke().style.transform).toBe("translateX(240px)");
    expect(marks).toEqual([]);
    fireEvent(band(), new PointerEvent("pointerup", at(340)));
    expect(marks).toEqual([{ fraction: 0.6, start: "pointer", moves: 0, firstMs: 700, pointer: "touch" }]);
    await drawn();
    expect(band().dataset.state).toBe("marked");
  });

  test.each([
    [76, 0],
    [100, 0],
    [500, 1],
    [523, 1],
  ])("at %i px, on or beyond an end, the mark is at %i", (x, fraction) => {
    show();
    fireEvent(band(), new PointerEvent("pointerdown", at(x)));
    fireEvent(band(), new PointerEvent("pointerup", at(x)));
    expect(marks).toMatchObject([{ fraction }]);
  });

  test("each move writes one attribute", async () => {
    show();
    fireEvent(band(), new PointerEvent("pointerdown", at(200)));
    const seen: MutationRecord[] = [];
    const observer = new MutationObserver((records) => seen.push(...records));
    observer.observe(document.body, { attributes: true, childList: true, characterData: true, subtree: true });
    for (let x = 201; x <= 250; x++) fireEvent(band(), new PointerEvent("pointermove", at(x)));
    seen.push(...observer.takeRecords());
    observer.disconnect();
    expect(seen.map(({ type, attributeName }) => `${type} ${attributeName}`)).toEqual(
      Array.from({ length: 50 }, () => "attributes style"),
    );
  });

  test.each([
    ["81 px above the band", "pointermove", at(300, 119)],
    ["81 px below the band", "pointermove", at(300, 377)],
    ["the browser takes the pointer", "pointercancel", at(300)],
  ])("%s: called off, the mark as it was", (_why, kind, init) => {
    show(marked);
    fireEvent(band(), new PointerEvent("pointerdown", at(200)));
    fireEvent(band(), new PointerEvent(kind, init));
    expect(band().dataset.state).toBe("marked");
    expect(stroke().style.transform).toBe("translateX(240px)");
    fireEvent(band(), new PointerEvent("pointermove", at(310)));
    fireEvent(band(), new PointerEvent("pointerup", at(310)));
    expect(marks).toEqual([]);
    expect(stroke().style.transform).toBe("translateX(240px)");
  });

  test("80 px above the band is still a press", () => {
    show();
    fireEvent(band(), new PointerEvent("pointerdown", at(200)));
    fireEvent(band(), new PointerEvent("pointermove", at(300, 120)));
    fireEvent(band(), new PointerEvent("pointerup", at(300, 120)));
    expect(marks).toMatchObject([{ fraction: 0.5 }]);
  });

  test("a second finger calls it off, wherever it lands; alone it places nothing", () => {
    show();
    fireEvent(band(), new PointerEvent("pointerdown", at(200)));
    fireEvent(document.body, new PointerEvent("pointerdown", at(10, 10, { pointerId: 2, isPrimary: false })));
    expect(band().dataset.state).toBe("empty");
    fireEvent(band(), new PointerEvent("pointerup", at(200)));
    fireEvent(band(), new PointerEvent("pointerdown", at(300, 248, { pointerId: 3, isPrimary: false })));
    fireEvent(band(), new PointerEvent("pointerup", at(300, 248, { pointerId: 3, isPrimary: false })));
    fireEvent(band(), new PointerEvent("pointerdown", at(300, 248, { button: 2 })));
    fireEvent(band(), new PointerEvent("pointerup", at(300, 248, { button: 2 })));
    expect(marks).toEqual([]);
  });
});

test("placing is said politely in words, at most once in half a second, the last of it at its end; no digit anywhere", async () => {
  show();
  const press = (x: number): void => {
    fireEvent(band(), new PointerEvent("pointerdown", at(x)));
    fireEvent(band(), new PointerEvent("pointerup", at(x)));
  };
  expect(element("[aria-live]").getAttribute("aria-live")).toBe("polite");
  press(300);
  await drawn();
  expect(said()).toBe("about half of the way from not at all juicy to extremely juicy");
  press(340);
  press(500);
  expect(said()).toContain("half");
  pass(500);
  expect(said()).toBe("at the end: extremely juicy");
  expect(element(".scale").textContent).not.toMatch(/\d/);
});

test("kept: nothing moves it any more", () => {
  show(marked, "ltr", true);
  expect(element(".scale").hasAttribute("inert") || element(".scale").inert).toBe(true);
  fireEvent.keyDown(slider(), { key: "Home" });
  fireEvent.click(screen.getByRole("button", { name: words.left }));
  expect(marks).toEqual([]);
});

describe("right to left", () => {
  test("only when told: a page in such a language leaves the line as it is", () => {
    document.documentElement.dir = "rtl";
    show(marked);
    expect(element(".scale").dir).toBe("ltr");
    expect(stroke().style.transform).toBe("translateX(240px)");
    document.documentElement.dir = "";
  });

  test("when told, the low end stands at the right, for fingers, arrows and drawing alike", async () => {
    show(null, "rtl");
    fireEvent(band(), new PointerEvent("pointerdown", at(140)));
    fireEvent(band(), new PointerEvent("pointerup", at(140)));
    expect(marks).toMatchObject([{ fraction: 0.9 }]);
    await drawn();
    expect(stroke().style.transform).toMatch(/translateX\((40|39\.99\d*)px\)/);
    fireEvent.keyDown(slider(), { key: "ArrowRight" });
    expect(marks.at(-1)?.fraction).toBeCloseTo(0.89, 9);
    cleanup();
    show(null, "rtl");
    fireEvent.keyDown(empty(), { key: "ArrowRight" });
    expect(marks.at(-1)).toMatchObject({ fraction: 1, start: "high-end" });
  });
});
