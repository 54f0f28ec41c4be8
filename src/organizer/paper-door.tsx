import { useState } from "preact/hooks";
import type { Body } from "../model/event.ts";
import { useReading } from "../ui/use-store.ts";
import { allergenNames } from "../words/en/allergens.ts";
import { listed } from "../words/en/organizer.ts";
import { kitchenPapers } from "../words/en/organizer-kitchen-papers.ts";
import { paperWords } from "../words/en/organizer-papers.ts";
import { panel } from "../words/en/panel.ts";
import { useLead } from "./app-context.ts";
import { watchOf } from "./facts.ts";
import { TextField } from "./fields.tsx";
import { MeasureBar } from "./paper-parts.tsx";
import { ProblemNote } from "./problem-note.tsx";
import type { PaperSize } from "./use-print.ts";

const words = kitchenPapers.door;
const kept = "door-contact";

export type DoorContact = { contact: string; setContact: (contact: string) => void; thrown: unknown };

/** Whom the sign at the door names: kept in this browser, never in the log. */
export function useDoorContact(): DoorContact {
  const { store } = useLead();
  const [typed, setTyped] = useState<string | null>(null);
  const [thrown, setThrown] = useState<unknown>(null);
  const stored = useReading(() => store.meta(kept).then((text) => text ?? null), watchOf(store), []);
  return {
    contact: typed ?? (typeof stored === "string" ? stored : ""),
    setContact: (contact) => {
      setTyped(contact);
      store.setMeta(kept, contact).catch(setThrown);
    },
    thrown,
  };
}

export function DoorTools({ door }: { door: DoorContact }) {
  return (
    <>
      <TextField
        id="door-contact"
        label={words.contactLabel}
        hint={words.contactHint}
        value={door.contact}
        max={120}
        onInput={door.setContact}
      />
      <ProblemNote thrown={door.thrown} />
    </>
  );
}

type Props = { lock: Body<"study-locked">; size: PaperSize; contact: string };

/**
 * The sign at the door: what is in everything that is served, cautions, and whom to ask. It hangs where panelists wait, so
 * it has no title, no product, and allergens only as the one list that is the same for all. A second sheet has what people
 * agree to: on paper there is no page of a tablet that says it.
 */
export function DoorSign({ lock: { plan, packet }, size, contact }: Props) {
  const { contains, mayContain, other } = packet.allergens;
  const has = [...contains.map((allergen) => allergenNames[allergen]), ...other];
  const may = mayContain.map((allergen) => allergenNames[allergen]);
  const starts = plan.waves.map((wave) => wave.starts.trim()).filter((time) => time !== "");
  return (
    <article class={`paper flow door ${size}`}>
      <h1 class="door-head">{words.heading}</h1>
      <p class="door-lead">{words.quiet}</p>
      {starts.length > 0 ? (
        <p class="door-lead">
          {words.begins} {listed([...new Set(starts)])}.
        </p>
      ) : null}
      <section class="door-part">
        {has.length + may.length === 0 ? <p>{words.nothing}</p> : null}
        {has.length > 0 ? (
          <>
            <h2>{words.contains}</h2>
            <p class="door-list">{listed(has)}</p>
          </>
        ) : null}
        {may.length > 0 ? (
          <>
            <h2>{words.mayContain}</h2>
            <p class="door-list">{listed(may)}</p>
          </>
        ) : null}
      </section>
      <section class="door-part">
        <h2>{words.before}</h2>
        <ul>
          {words.beforeLines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </section>
      {packet.cautions.length > 0 ? (
        <section class="door-part">
          <h2>{words.cautions}</h2>
          <ul>
            {packet.cautions.map((caution) => (
              <li key={caution}>{panel.clearance.caution[caution]}</li>
            ))}
          </ul>
        </section>
      ) : null}
      <section class="door-part">
        <h2>{words.contact}</h2>
        {contact.trim() === "" ? <p class="write-line" /> : <p class="door-list">{contact.trim()}</p>}
      </section>
      <p class="door-foot">
        <MeasureBar />
        <span class="seal">{paperWords.seal(packet.commitment)}</span>
      </p>
      {packet.consent ? (
        <section class="door-sheet">
          <h2 class="door-lead">{words.about}</h2>
          {packet.consent.lines.map(({ term, text }) => (
            <p key={term}>
              <strong>{term}.</strong> {text}
            </p>
          ))}
        </section>
      ) : null}
    </article>
  );
}
