import type { ComponentChildren } from "preact";
import { font } from "./picture-style.ts";

/** Ids of the caption that names a picture and of the table that says the same. Without them it is for the eye only. */
export type PictureIds = { caption?: string | undefined; table?: string | undefined };

type Props = PictureIds & { width: number; height: number; fontSize?: string; children: ComponentChildren };

/** What all pictures stand in. */
export function PictureFrame({ width, height, caption, table, fontSize, children }: Props) {
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: the caption names it, by id; a title would show as a tooltip
    <svg
      {...(caption ? { role: "img", "aria-labelledby": caption, "aria-details": table } : { "aria-hidden": true })}
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      font-family={font}
      {...(fontSize ? { "font-size": fontSize } : {})}
      class="chance"
    >
      {children}
    </svg>
  );
}
