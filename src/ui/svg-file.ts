import { type ComponentChild, render } from "preact";

/**
 * A drawing as the text of an SVG file that stands alone. It is drawn anew, off the page, so that the file does not
 * depend on the screen.
 */
export function svgText(drawing: ComponentChild): string {
  const holder = document.createElement("div");
  render(drawing, holder);
  const svg = holder.querySelector("svg");
  if (!svg) return "";
  for (const node of [svg, ...svg.querySelectorAll("*")]) {
    for (const name of ["aria-hidden", "class"]) node.removeAttribute(name);
  }
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  const text = new XMLSerializer().serializeToString(svg);
  render(null, holder);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${text}\n`;
}

/** Width and height that an SVG text names, in CSS pixels. */
export function sizeOfSvg(text: string): { width: number; height: number } {
  const number = (name: string): number => Number(new RegExp(`<svg[^>]*\\s${name}="([\\d.]+)"`).exec(text)?.[1] ?? 0);
  return { width: number("width"), height: number("height") };
}

/**
 * An SVG text as PNG on white paper.
 *
 * Takes    times: pixels of the picture for each CSS pixel of the drawing
 * Returns  null when this browser cannot draw it
 */
export async function pngOf(text: string, times: number): Promise<Blob | null> {
  const { width, height } = sizeOfSvg(text);
  const address = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(width * times);
    canvas.height = Math.round(height * times);
    const context = canvas.getContext("2d");
    if (!context) return null;
    context.fillStyle = "#fff";
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done) => canvas.toBlob(done, "image/png"));
  } catch {
    return null;
  } finally {
    URL.revokeObjectURL(address);
  }
}
