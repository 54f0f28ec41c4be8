import { generate } from "lean-qr";

/** Blank modules around a QR code (ISO/IEC 18004 asks for 4; from memory). */
const quiet = 4;

/** The black modules of a text as one SVG path, or null when it is too long for a QR code. */
export function qrPath(text: string): { path: string; modules: number } | null {
  try {
    const bitmap = generate(text);
    let path = "";
    for (let y = 0; y < bitmap.size; y++) {
      for (let x = 0; x < bitmap.size; x++) if (bitmap.get(x, y)) path += `M${x + quiet} ${y + quiet}h1v1h-1z`;
    }
    return { path, modules: bitmap.size + 2 * quiet };
  } catch {
    return null;
  }
}

/** A text as a QR code of the given size (a CSS length); nothing when it does not fit. */
export function Qr({ text, label, size }: { text: string; label: string; size: string }) {
  const code = qrPath(text);
  if (!code) return null;
  return (
    <svg
      class="qr"
      role="img"
      aria-label={label}
      viewBox={`0 0 ${code.modules} ${code.modules}`}
      style={{ width: size, height: size }}
      shape-rendering="crispEdges"
    >
      <path d={code.path} />
    </svg>
  );
}
