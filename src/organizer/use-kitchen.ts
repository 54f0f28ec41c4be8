import { useRef } from "preact/hooks";
import { emptyKitchen } from "../design/begin.ts";
import type { KitchenState } from "../log/kitchen.ts";
import { kitchenStream } from "../model/event.ts";
import type { Kitchen } from "../model/kitchen.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { type Kept, useKept } from "./use-kept.ts";

/** As many versions as one event may name. */
const mostMerged = 50;

export type KitchenDraft = Omit<Kept<Kitchen>, "value"> & {
  kitchen: Kitchen;
  /** Settles versions that did not know of each other: one that is given counts, or the one at hand (null). */
  settle: (instead: Kitchen | null) => void;
};

/** The kitchen's defaults at hand, kept as events while they are typed. */
export function useKitchenDraft({ current, others }: KitchenState): KitchenDraft {
  const lead = useLead();
  /** Other versions that were looked at and are replaced with the next writing. */
  const merged = useRef<string[]>([]);
  const { value, ...kept } = useKept<Kitchen>(
    { event: current?.event ?? null, value: current?.kitchen ?? emptyKitchen() },
    async (base, kitchen) => {
      const named = merged.current.filter((event) => event !== base).slice(0, mostMerged);
      const body = { base, merged: named, kitchen };
      const { id } = await appendEvent(lead, { stream: kitchenStream, kind: "kitchen-saved", body });
      merged.current = [];
      return id;
    },
  );
  return {
    ...kept,
    kitchen: value,
    settle: (instead) => {
      merged.current = [...others.map(({ event }) => event), ...(current ? [current.event] : [])];
      kept.edit((before) => instead ?? before);
      void kept.flush();
    },
  };
}
