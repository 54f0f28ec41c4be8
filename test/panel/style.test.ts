import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";

// What must hold for a perception test: no hue on the tablet, and text that can be read in both palettes.
const sheets = [
  "panel/panel.css",
  "panel/choice/choice.css",
  "panel/line/line.css",
  "panel/tools/tools.css",
  "ui/line-scale.css",
  "ui/tokens.css",
];
const css = sheets.map((file) => readFileSync(join(import.meta.dirname, "../../src", file), "utf8"));
const sheet = css.join("\n");

function paletteOf(selector: string): Record<string, string> {
  const block = sheet.split(selector)[1]?.split("}")[0] ?? "";
  return Object.fromEntries([...block.matchAll(/--([\w-]+): (#[0-9a-f]{6})/g)].map(([, name, value]) => [name, value]));
}

/** Contrast of two colors. WCAG 2.2, definitions of relative luminance and contrast ratio (formula from memory). */
function contrast(one: string, other: string): number {
  const luminance = (color: string): number => {
    const [r = 0, g = 0, b = 0] = [1, 3, 5]
      .map((at) => Number.parseInt(color.slice(at, at + 2), 16) / 255)
      .map((channel) => (channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

test("every color of the tablet is a gray: R = G = B, and none is named", () => {
  const colors = [...sheet.matchAll(/#[0-9a-fA-F]{3,8}\b/g)].map(([color]) => color);
  expect(colors.length).toBeGreaterThan(10);
  for (const color of colors) expect(color).toMatch(/^#([0-9a-f]{2})\1\1$/);
  expect(sheet).not.toMatch(/\b(rgb|hsl|oklch|lab|color-mix)\(|:\s*(red|green|blue|white|black)\b/);
});

test("nothing moves by itself", () => {
  expect(sheet).not.toMatch(/\b(animation|transition)\b/);
});

describe.each(["day", "dim"])("palette %s", (name) => {
  const color = paletteOf(`:root[data-palette="${name}"] {`);
  const ratio = (one: string, other: string) => contrast(color[one] ?? "", color[other] ?? "");

  test.each([
    ["ink", "ground"],
    ["ink", "field"],
    ["quiet", "ground"],
    ["quiet", "field"],
    ["on-chosen", "chosen"],
  ])("text %s on %s has at least 4.5 : 1 (WCAG 2.2, SC 1.4.3)", (text, ground) => {
    expect(ratio(text, ground)).toBeGreaterThanOrEqual(4.5);
  });

  test.each([
    ["edge", "ground"],
    ["chosen", "ground"],
    ["chosen", "field"],
  ])("%s against %s has at least 3 : 1 (WCAG 2.2, SC 1.4.11)", (part, ground) => {
    expect(ratio(part, ground)).toBeGreaterThanOrEqual(3);
  });
});
