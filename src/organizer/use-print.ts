import { useState } from "preact/hooks";
import type { Paper } from "../model/event.ts";
import { useReading } from "../ui/use-store.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { watchOf } from "./facts.ts";
import type { HeldKey } from "./key-memory.ts";

export type PaperSize = "a4" | "letter";

export type Printing = {
  size: PaperSize;
  setSize: (size: PaperSize) => void;
  /** Writes down that the paper is printed, then opens the browser's print. */
  print: (paper: Paper) => void;
  thrown: unknown;
};

/**
 * Printing as an event of its own. Right after the lock a paper is printed for the first time, once however often
 * the button is pressed; with a key that was opened for it, each time is a reprint.
 */
export function usePrint(study: string, held: HeldKey | null): Printing {
  const lead = useLead();
  const [thrown, setThrown] = useState<unknown>(null);
  const [picked, setPicked] = useState<PaperSize | null>(null);
  const stored = useReading(() => lead.store.meta("paper-size"), watchOf(lead.store), []);
  return {
    size: picked ?? (stored === "letter" ? "letter" : "a4"),
    setSize: (size) => {
      setPicked(size);
      lead.store.setMeta("paper-size", size).catch(setThrown);
    },
    thrown,
    print: (paper) => {
      const reprint = held !== null && !held.fresh;
      setThrown(null);
      appendEvent(lead, {
        stream: { kind: "study", id: study },
        kind: "paper-printed",
        body: { paper, reprint },
        ...(reprint ? {} : { mark: `paper ${study} ${paper}` }),
      }).then(() => window.print(), setThrown);
    },
  };
}
