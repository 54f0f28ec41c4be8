import { useState } from "preact/hooks";
import type { Body } from "../model/event.ts";
import { trayLabel } from "../model/tray.ts";
import { useReading } from "../ui/use-store.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { useLead } from "./app-context.ts";
import { FlowSheet } from "./paper-parts.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";
import type { PaperSize } from "./use-print.ts";
import { WordGate } from "./word-gate.tsx";

const words = paperWords.seating;
type Lock = Body<"study-locked">;

/** Names of a study by seat: an erasable record of this browser, outside of the log. */
export type Names = {
  of: Record<string, string>;
  save: (seat: number, name: string) => Promise<void>;
  erase: () => Promise<void>;
  /** Grows with each erasing, so that what was typed is forgotten too. */
  erasings: number;
};

/** What the names of a study stand under in the erasable record; a seat number follows. */
export const namesPrefix = (study: string): string => `${study}/`;

export function useNames(study: string): Names {
  const { store } = useLead();
  const [count, setCount] = useState(0);
  const stored = useReading(
    () => store.names(namesPrefix(study)),
    (changed) => store.onChange(changed),
    [study, count],
  );
  return {
    of: stored ?? {},
    save: (seat, name) => store.saveName(`${namesPrefix(study)}${seat}`, name.trim()),
    erase: async () => {
      for (const seat of Object.keys(await store.names(namesPrefix(study))))
        await store.saveName(`${namesPrefix(study)}${seat}`, "");
      setCount((before) => before + 1);
    },
    erasings: count,
  };
}

/** What is said of names, and the way to erase them. */
export function NameTools({ names }: { id: string; lock: Lock; names: Names }) {
  const doing = useDoing();
  const [erased, setErased] = useState(false);
  return (
    <>
      <p>{words.note}</p>
      <details>
        <summary>{words.erase}</summary>
        <p>{words.eraseNote}</p>
        <WordGate
          word={words.word}
          action={words.erase}
          working={words.working}
          busy={doing.busy}
          go={() =>
            doing.run(async () => {
              await names.erase();
              setErased(true);
            })
          }
        />
        <ProblemNote thrown={doing.thrown} />
        {erased ? <p role="status">{words.erased}</p> : null}
      </details>
    </>
  );
}

/** Who sits where: seat, tray and wave, with a name that may stay blank. */
export function Seating({ lock, size, names }: { lock: Lock; size: PaperSize; names: Names }) {
  const waveOf = new Map(lock.packet.trays.map(({ tray, wave }) => [tray, wave]));
  return (
    <FlowSheet lock={lock} name={paperNames.seating} size={size}>
      {lock.seats.some(({ trays }) => trays.length > 1) ? <p class="small-print">{words.order}</p> : null}
      <table class="seating">
        <thead>
          <tr>
            <th scope="col">{words.seat}</th>
            <th scope="col">{words.tray}</th>
            <th scope="col">{words.wave}</th>
            <th scope="col">{words.name}</th>
          </tr>
        </thead>
        <tbody>
          {lock.seats.map(({ seat, trays }) => (
            <tr key={seat}>
              <th scope="row">{seat}</th>
              <td>
                {waves(trays, waveOf).map(([wave, mine]) => (
                  <span key={wave} class="seat-line">
                    {mine.map(trayLabel).join(", ")}
                  </span>
                ))}
              </td>
              <td>
                {waves(trays, waveOf).map(([wave]) => (
                  <span key={wave} class="seat-line">
                    {waveText(lock, wave)}
                  </span>
                ))}
              </td>
              <td>
                <NameCell
                  key={names.erasings}
                  seat={seat}
                  name={names.of[String(seat)] ?? ""}
                  onName={(name) => names.save(seat, name)}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </FlowSheet>
  );
}

/** The trays of a seat by wave, in the order of serving. */
function waves(trays: readonly number[], waveOf: ReadonlyMap<number, number>): [number, number[]][] {
  const of = new Map<number, number[]>();
  for (const tray of trays) {
    const wave = waveOf.get(tray) ?? 0;
    of.set(wave, [...(of.get(wave) ?? []), tray]);
  }
  return [...of];
}

function waveText(lock: Lock, wave: number): string {
  const { starts = "", session = "" } = lock.plan.waves[wave - 1] ?? {};
  return [String(wave), session.trim(), starts.trim()].filter((part) => part !== "").join(", ");
}

function NameCell({ seat, name, onName }: { seat: number; name: string; onName: (name: string) => Promise<void> }) {
  const [typed, setTyped] = useState<string | null>(null);
  const [thrown, setThrown] = useState<unknown>(null);
  const leave = (): void => {
    if (typed === null || typed.trim() === name) return;
    onName(typed).then(() => setThrown(null), setThrown);
  };
  return (
    <>
      <input
        type="text"
        aria-label={words.nameOf(seat)}
        autocomplete="off"
        maxLength={120}
        value={typed ?? name}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={leave}
      />
      <ProblemNote thrown={thrown} />
    </>
  );
}
