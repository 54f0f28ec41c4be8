import * as z from "zod/mini";
import type { EventStore } from "../device/event-store.ts";
import { instant } from "../model/schema.ts";

/**
 * What a bank card laid on the screen told: how many CSS pixels are a millimeter on this tablet. It holds for the zoom
 * under which it was made.
 */
export const cardCheck = z.strictObject({
  pxPerMm: z.number().check(z.minimum(1), z.maximum(60)),
  pixelRatio: z.number(),
  at: instant,
});
export type CardCheck = z.infer<typeof cardCheck>;

/** The page's window, and the longer side of the screen, in CSS pixels. */
export type Glass = { widthPx: number; longSidePx: number; pixelRatio: number };

const name = "card check";

export async function readCardCheck(store: EventStore): Promise<CardCheck | null> {
  const parsed = z.safeParse(cardCheck, await store.meta(name));
  return parsed.success ? parsed.data : null;
}

export const keepCardCheck = (store: EventStore, check: CardCheck): Promise<void> => store.setMeta(name, check);

/** The longest line, in CSS pixels, on a page so wide: what its edges and the band beyond the line's ends leave. */
export const roomPx = (widthPx: number): number => Math.max(0, widthPx - (widthPx <= 640 ? 48 : 80) - 48);

/** The longest line in whole millimeters, as the tablet is held now and on its side. */
export const roomMm = ({ pxPerMm }: CardCheck, { widthPx, longSidePx }: Glass): { now: number; turned: number } => ({
  now: Math.floor(roomPx(widthPx) / pxPerMm),
  turned: Math.floor(roomPx(Math.max(widthPx, longSidePx)) / pxPerMm),
});

/** Calls when the window is turned, sized or zoomed, by two fingers too; returns the way to stop that. */
export function onGlassChange(look: () => void): () => void {
  window.addEventListener("resize", look);
  window.visualViewport?.addEventListener("resize", look);
  return () => {
    window.removeEventListener("resize", look);
    window.visualViewport?.removeEventListener("resize", look);
  };
}
