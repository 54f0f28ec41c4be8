import type { Body } from "../model/event.ts";
import type { BlindTray } from "../model/packet.ts";
import { trayLabel } from "../model/tray.ts";
import { CodeDigits } from "../ui/code-digits.tsx";
import { allergenNames } from "../words/en/allergens.ts";
import { listed } from "../words/en/organizer.ts";
import { paperWords } from "../words/en/organizer-papers.ts";
import { MeasureBar } from "./paper-parts.tsx";
import { Qr } from "./qr.tsx";
import type { PaperSize } from "./use-print.ts";

type Lock = Body<"study-locked">;
/** Cups stand on circles of 45 mm: three fill an A6 card from edge to edge, more need rows on A5. */
const mostOnSmall = 3;

/**
 * A card for each tray: A6, four on a sheet, or A5, two on a sheet, where a tray has more than three cups. The circle of a
 * reference comes first and bears its letter. A card stands before the panelist, so it carries no title: titles tend to
 * name the treatment. The seal says which study it is.
 */
export function TrayCards({ lock, size }: { lock: Lock; size: PaperSize }) {
  const { trays } = lock.packet;
  const large = trays.some((tray) => cupsOf(lock, tray).length > mostOnSmall);
  const perSheet = large ? 2 : 4;
  const sheets = Array.from({ length: Math.ceil(trays.length / perSheet) }, (_, at) =>
    trays.slice(at * perSheet, (at + 1) * perSheet),
  );
  return (
    <>
      {sheets.map((cards) => (
        <article key={cards[0]?.tray} class={`paper cards ${large ? "large " : ""}${size}`}>
          {cards.map((tray) => (
            <Card key={tray.tray} lock={lock} tray={tray} large={large} />
          ))}
        </article>
      ))}
    </>
  );
}

/** What stands on a tray, in the order of tasting: the letter of the reference, if there is one, then the codes. */
const cupsOf = ({ packet }: Lock, { codes }: BlindTray): string[] => [
  ...(packet.reference ? [packet.reference] : []),
  ...codes,
];

function Card({ lock, tray, large }: { lock: Lock; tray: BlindTray; large: boolean }) {
  const words = paperWords.card;
  const label = trayLabel(tray.tray);
  const { packet, plan } = lock;
  const { contains, mayContain, other } = packet.allergens;
  const has = [...contains.map((allergen) => allergenNames[allergen]), ...other];
  const may = mayContain.map((allergen) => allergenNames[allergen]);
  const cups = cupsOf(lock, tray);
  return (
    <section class="card">
      <div class="card-head">
        <p>
          <span class="card-tray">{words.tray}</span> <strong class="card-number">{label}</strong>
        </p>
        <p class="card-wave">
          {paperWords.wave(tray.wave, plan.waves[tray.wave - 1]?.starts ?? "")}
          {tray.spare ? `, ${paperWords.spare}` : ""}
        </p>
        <Qr text={label} label={words.qr(label)} size="17mm" />
      </div>
      <div class="circles" style={{ "--across": Math.min(cups.length, cups.length === 4 ? 2 : 3) }}>
        {cups.map((code) => (
          <span key={code} class="circle">
            <CodeDigits code={code} />
          </span>
        ))}
      </div>
      <div class="card-foot">
        <p>
          {has.length + may.length === 0 ? words.nothing : ""}
          {has.length > 0 ? `${words.contains} ${listed(has)}. ` : ""}
          {may.length > 0 ? `${words.mayContain} ${listed(may)}. ` : ""}
          {packet.chew === null ? (
            <>
              <strong>{words.swallow[packet.swallow]}</strong> {large ? words.rows : words.order}.
            </>
          ) : (
            <>
              <strong>{words.spit}</strong> {words.weighed(large)}.
            </>
          )}
        </p>
        <p class="card-marks">
          <MeasureBar />
          <span>{paperWords.seal(packet.commitment)}</span>
        </p>
      </div>
    </section>
  );
}
