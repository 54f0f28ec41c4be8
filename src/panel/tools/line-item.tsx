import { useEffect, useRef, useState } from "preact/hooks";
import type { EventStore } from "../../device/event-store.ts";
import { Bare, roomFor } from "../../ui/line-scale.tsx";
import { useWidth } from "../../ui/use-width.ts";
import { deviceProblemSentence } from "../../words/device-problem-sentence.ts";
import { panelTools } from "../../words/en/panel-tools.ts";
import { asProblem } from "../as-problem.ts";
import { type CardCheck, type Glass, keepCardCheck, onGlassChange, readCardCheck, roomMm } from "../card-check.ts";
import { Item } from "./check-page.tsx";
import type { Verdict } from "./surroundings.ts";

const { line: words } = panelTools.check;

/** The long side of a bank card, ISO/IEC 7810 ID-1 (from memory). */
export const cardMm = 85.6;
/** Where the bar begins: as long as a card would be at 96 CSS pixels an inch. */
const firstPx = Math.round((cardMm / 25.4) * 96);

type Props = { store: EventStore; glass: () => Glass; instant: () => string; lengthMm: number | null };

/** The measuring of the screen with a card, and the line of the study at its true length. */
export function LineItem({ store, glass, instant, lengthMm }: Props) {
  const [check, setCheck] = useState<CardCheck | null | undefined>(undefined);
  const [said, setSaid] = useState<string | null>(null);
  const held = useGlass(glass);
  useEffect(() => {
    void readCardCheck(store).then(setCheck, () => setCheck(null));
  }, [store]);
  if (check === undefined) return null;
  const keep = async (px: number): Promise<void> => {
    const made = { pxPerMm: px / cardMm, pixelRatio: glass().pixelRatio, at: instant() };
    try {
      await keepCardCheck(store, made);
      setCheck(made);
      setSaid(words.kept);
    } catch (thrown) {
      setSaid(deviceProblemSentence(asProblem(thrown)));
    }
  };
  const { verdict, text } = judge(check, held, lengthMm);
  const shown = lengthMm ?? 100;
  const fits = check && verdict !== "bad" && roomMm(check, held).now >= shown;
  return (
    <Item name={words.name} verdict={verdict}>
      <p>{text}</p>
      {check && fits ? (
        <>
          <div class="band" data-state="empty" style={{ width: `${roomFor(shown * check.pxPerMm)}px` }}>
            <Bare lengthPx={shown * check.pxPerMm} />
          </div>
          <p>{words.fits(shown)}</p>
        </>
      ) : null}
      <Measure start={check ? Math.round(check.pxPerMm * cardMm) : firstPx} keep={(px) => void keep(px)} />
      <p role="status">{said}</p>
    </Item>
  );
}

function judge(check: CardCheck | null, held: Glass, lengthMm: number | null): { verdict: Verdict; text: string } {
  if (!check) return { verdict: "unknown", text: words.none };
  if (check.pixelRatio !== held.pixelRatio) return { verdict: "bad", text: words.zoomed };
  const room = roomMm(check, held);
  const fit = words.room(room.now, room.turned);
  if (lengthMm === null || room.now >= lengthMm) return { verdict: "ok", text: fit };
  if (room.turned >= lengthMm) return { verdict: "bad", text: words.turn(lengthMm) };
  return { verdict: "bad", text: words.small(lengthMm) };
}

/** The bar that is made as long as the card: by buttons, or by the arrow keys on it. */
function Measure({ start, keep }: { start: number; keep: (px: number) => void }) {
  const whole = useRef<HTMLDivElement>(null);
  const most = useWidth(whole, 600);
  const [wanted, setPx] = useState(start);
  const px = Math.min(wanted, most);
  const change = (by: number): void => setPx(Math.min(most, Math.max(100, px + by)));
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -10, PageUp: 10 }[event.key];
    if (by === undefined) return;
    change(by);
    event.preventDefault();
  };
  return (
    <div class="measure" ref={whole}>
      <p>{words.how}</p>
      <div
        class="card-bar"
        role="slider"
        tabIndex={0}
        aria-label={words.bar}
        aria-valuemin={100}
        aria-valuemax={most}
        aria-valuenow={px}
        aria-valuetext={words.place(px)}
        style={{ width: `${px}px` }}
        onKeyDown={onKeyDown}
      />
      <div class="steps">
        {[-10, -1, 1, 10].map((by) => (
          <button key={by} type="button" onClick={() => change(by)}>
            {words.steps[by]}
          </button>
        ))}
      </div>
      {px >= most ? <p role="status">{words.edge}</p> : null}
      <button type="button" class="next" onClick={() => keep(px)}>
        {words.matches}
      </button>
    </div>
  );
}

/** The window as it is held and zoomed now. */
function useGlass(glass: () => Glass): Glass {
  const [held, setHeld] = useState(glass());
  useEffect(() => {
    const look = (): void => setHeld(glass());
    return onGlassChange(look);
  }, [glass]);
  return held;
}
