import type { ComponentProps } from "preact";
import type { KitchenState } from "../log/kitchen.ts";
import { focusSoon } from "../ui/focus.ts";
import { organizer } from "../words/en/organizer.ts";
import { kitchenWords as words } from "../words/en/organizer-kitchen.ts";
import { limitWords } from "../words/en/organizer-limits.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { useLead } from "./app-context.ts";
import { fetchKitchen, useKitchen, usePolling } from "./facts.ts";
import { differences, withServing } from "./kitchen-edit.ts";
import { LimitTableFields } from "./kitchen-limit-table.tsx";
import { Properties } from "./kitchen-properties.tsx";
import { CautionFields, CodesField, PanelFields, RoomFields } from "./kitchen-room.tsx";
import { OtherVersions } from "./other-versions.tsx";
import { headingId, Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { CupFields, TastingFields } from "./serving-fields.tsx";
import { UndoBar } from "./undo-bar.tsx";
import { useDevices } from "./use-devices.ts";
import { useKitchenDraft } from "./use-kitchen.ts";

const everyMs = 8_000;

/** What this kitchen usually does, for all its leads: kept while it is typed, like a plan. */
export function KitchenPage() {
  const { store } = useLead();
  const state = useKitchen(store);
  if (state === undefined) return <p class="fine">{organizer.loading}</p>;
  return <Defaults state={state} />;
}

function Defaults({ state }: { state: KitchenState }) {
  const lead = useLead();
  const fetching = usePolling(lead, () => fetchKitchen(lead), everyMs, [lead.who.token]);
  const draft = useKitchenDraft(state);
  const { nameOf } = useDevices();
  const serving: ComponentProps<typeof CupFields> = {
    id: "kitchen",
    serving: draft.kitchen.serving,
    set: (change) => draft.edit((before) => withServing(before, change)),
  };
  return (
    <Page heading={words.heading} windowTitle={words.heading} margin={<Notes />}>
      {state.current ? <p class="fine under">{words.last(nameOf(state.current.device), state.current.at)}</p> : null}
      <p class="lead-in">{words.lead}</p>
      {fetching.thrown === null ? null : <p class="note">{words.offline}</p>}
      {lead.keep?.at === "failed" ? <ProblemNote thrown={lead.keep.thrown} /> : null}
      <div class="kitchen" onFocusOut={() => void draft.flush()}>
        <Section title={words.cup} fields={<CupFields {...serving} />} />
        <Section title={words.tasting} fields={<TastingFields {...serving} retaste={planWords.samples.retaste} />} />
        <Section title={words.room} fields={<RoomFields draft={draft} />} />
        <Section title={words.panel} fields={<PanelFields draft={draft} />} />
        <Section title={words.cautions} fields={<CautionFields draft={draft} />} />
        <Section title={limitWords.heading} fields={<LimitTableFields draft={draft} />} />
        <Section title={words.codes} fields={<CodesField draft={draft} />} />
        <Section title={words.properties} fields={<Properties draft={draft} />} />
      </div>
      <div class="foot">
        <OtherVersions
          current={state.current?.kitchen}
          others={state.others.map((other) => ({ ...other, document: other.kitchen }))}
          differences={differences}
          words={words.versions}
          settle={draft.settle}
          nameOf={nameOf}
        />
        <UndoBar {...draft} then={() => focusSoon(headingId)} />
      </div>
    </Page>
  );
}

function Section({ title, fields }: { title: string; fields: preact.ComponentChildren }) {
  return (
    <section>
      <h2>{title}</h2>
      {fields}
    </section>
  );
}

function Notes() {
  return (
    <>
      <p>{words.note}</p>
      <p>{words.noteTablets}</p>
      <p>{words.noteDay}</p>
    </>
  );
}
