// @vitest-environment happy-dom
import { expect, test } from "vitest";
import { IntervalRows } from "../../src/ui/interval-picture.tsx";
import { shortened, wrapped } from "../../src/ui/picture-style.ts";
import { Slide, slideDrawingWidth } from "../../src/ui/slide.tsx";
import { sizeOfSvg, svgText } from "../../src/ui/svg-file.ts";

const row = { id: "a", label: "new − current", text: "11.9 (5.3 to 18.5)", estimate: 11.9, low: 5.3, high: 18.5 };
const drawing = <IntervalRows figures={{ rows: [row], range: null, zero: true }} width={slideDrawingWidth} />;
const slide = (verdict: string) => (
  <Slide
    title="Steam first: juicier?"
    verdict={verdict}
    drawing={drawing}
    size={sizeOfSvg(svgText(drawing))}
    numbers={[{ label: "p", value: "0.0006", behind: "F(2, 22)" }]}
    foot="Steam first: juicier?"
  />
);
const parsed = (text: string): Document => new DOMParser().parseFromString(text, "image/svg+xml");

test("a drawing as a file stands alone: its own name space, no class, no style, nothing hidden", () => {
  const text = svgText(drawing);
  expect(text).toMatch(/^<\?xml version="1.0" encoding="UTF-8"\?>\n<svg/);
  expect(text).toContain('xmlns="http://www.w3.org/2000/svg"');
  expect(text).not.toMatch(/\s(class|style|aria-hidden|href)=/);
  expect(text).toContain("sans-serif");
  expect(sizeOfSvg(text).width).toBe(slideDrawingWidth);
});

test("a picture for a screen is 1920 by 1080 and holds title, verdict, drawing and numbers", () => {
  const text = svgText(slide("This panel marked “new” higher."));
  expect(sizeOfSvg(text)).toEqual({ width: 1920, height: 1080 });
  for (const part of ["Steam first: juicier?", "This panel marked “new” higher.", "new − current", "0.0006"]) {
    expect(text).toContain(part);
  }
});

test("nothing on it is smaller than 24 of 1080 lines, the drawing included", () => {
  const page = parsed(svgText(slide("This panel marked “new” higher.")));
  const scale = Number(/scale\(([\d.]+)\)/.exec(page.documentElement.outerHTML)?.[1]);
  for (const node of page.querySelectorAll("text")) {
    const holder = node.closest("[font-size]");
    const size = Number(holder?.getAttribute("font-size")) * (node.closest("g[transform]") ? scale : 1);
    expect(size, node.textContent ?? "").toBeGreaterThanOrEqual(24);
  }
});

test("a long verdict is set smaller and in lines, and the drawing still ends above the foot", () => {
  const long = "This panel marked the products apart in juiciness, ten seconds after the first bite. ".repeat(3).trim();
  const text = svgText(slide(long));
  const top = Number(/translate\(\d+ (\d+)\)/.exec(text)?.[1]);
  const scale = Number(/scale\(([\d.]+)\)/.exec(text)?.[1]);
  expect(top + scale * sizeOfSvg(svgText(drawing)).height).toBeLessThan(1080 - 60);
  expect(text.match(/font-size="46"/g)).not.toBeNull();
});

test("texts break at spaces and end in an ellipsis where they must", () => {
  expect(wrapped("not at all juicy", 10, 3)).toEqual(["not at all", "juicy"]);
  expect(wrapped("one two three four five six", 9, 2)).toEqual(["one two", "three fo\u2026"]);
  expect(shortened("Steamed", 7)).toBe("Steamed");
  expect(shortened("Steamed first", 7)).toBe("Steame\u2026");
});
