import { useEffect, useRef, useState } from "preact/hooks";
import type { FactOf } from "../log/fact.ts";
import type { Fact, Paper } from "../model/event.ts";
import { useReading } from "../ui/use-store.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { watchOf } from "./facts.ts";
import { PrintGuard, printBody, showsKey } from "./print-rules.ts";

export type PaperSize = "a4" | "letter";

type Options = {
  study: string;
  paper: Paper;
  /** Prints that are in the log. */
  printed: readonly FactOf<"paper-printed">[];
  /** Is the coming print in the log already? */
  covered: boolean;
  /** The browser is done with a print, or it was canceled: browsers do not say which. */
  onOver?: () => void;
};

export type Printing = {
  size: PaperSize;
  setSize: (size: PaperSize) => void;
  /** Writes down that the paper is printed, then opens the browser's print. */
  print: () => void;
  thrown: unknown;
};

/** Printing as an event of its own, once for a paper without the key and each time for one with it. */
export function usePrint(options: Options): Printing {
  const [thrown, setThrown] = useState<unknown>(null);
  const guard = useGuard(options);
  useEffect(() => {
    const before = (): void => void guard.before().catch(setThrown);
    const after = (): void => options.onOver?.();
    window.addEventListener("beforeprint", before);
    window.addEventListener("afterprint", after);
    return () => {
      window.removeEventListener("beforeprint", before);
      window.removeEventListener("afterprint", after);
    };
  }, []);
  return {
    ...usePaperSize(setThrown),
    thrown,
    print: () => {
      setThrown(null);
      guard.press().catch(setThrown);
    },
  };
}

function useGuard({ study, paper, printed, covered }: Options): PrintGuard {
  const lead = useLead();
  const known = useRef(printed);
  known.current = printed;
  /** Written by this page: the screen learns of it a moment later, the next print must know at once. */
  const own = useRef<Fact[]>([]);
  const guard = useRef<PrintGuard | null>(null);
  guard.current ??= new PrintGuard({
    covered,
    write: async () => {
      const fact = await appendEvent(lead, {
        stream: { kind: "study", id: study },
        kind: "paper-printed",
        body: printBody(paper, [...known.current, ...own.current.filter((each) => each.kind === "paper-printed")]),
        ...(showsKey(paper) ? {} : { mark: `paper ${study} ${paper}` }),
      });
      own.current.push(fact);
    },
    print: () => window.print(),
  });
  return guard.current;
}

/** A4 or Letter, as this browser chose last. */
export function usePaperSize(onFailure: (thrown: unknown) => void): Pick<Printing, "size" | "setSize"> {
  const lead = useLead();
  const [picked, setPicked] = useState<PaperSize | null>(null);
  const stored = useReading(() => lead.store.meta("paper-size"), watchOf(lead.store), []);
  return {
    size: picked ?? (stored === "letter" ? "letter" : "a4"),
    setSize: (size) => {
      setPicked(size);
      lead.store.setMeta("paper-size", size).catch(onFailure);
    },
  };
}
