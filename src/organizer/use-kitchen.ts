import { emptyKitchen } from "../design/begin.ts";
import type { KitchenState } from "../log/kitchen.ts";
import { kitchenStream } from "../model/event.ts";
import type { Kitchen } from "../model/kitchen.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { kitchenDifferences } from "./differences.ts";
import { type Kept, useKept } from "./use-kept.ts";

export type KitchenDraft = Omit<Kept<Kitchen>, "value"> & { kitchen: Kitchen };

/** The kitchen's defaults at hand, kept as events while they are typed. */
export function useKitchenDraft({ current, others }: KitchenState): KitchenDraft {
  const lead = useLead();
  const { value, ...kept } = useKept<Kitchen>({
    stored: {
      ...{ event: current?.event ?? null, value: current?.kitchen ?? emptyKitchen() },
      others: others.map(({ event }) => event),
    },
    save: async (base, merged, kitchen) => {
      const body = { base, merged, kitchen };
      return (await appendEvent(lead, { stream: kitchenStream, kind: "kitchen-saved", body })).id;
    },
    differ: kitchenDifferences,
  });
  return { kitchen: value, ...kept };
}
