import { useState } from "preact/hooks";
import type { Kitchen } from "../model/kitchen.ts";
import { organizerConsent } from "../words/en/organizer-consent.ts";
import { kitchenWords } from "../words/en/organizer-kitchen.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { Check, Choice, TextField } from "./fields.tsx";
import { withCaution } from "./kitchen-edit.ts";
import { readCodes } from "./plan-waves.ts";
import type { KitchenDraft } from "./use-kitchen.ts";

type Props = { draft: KitchenDraft };

const set = ({ edit }: KitchenDraft, change: Partial<Kitchen>): void => edit((before) => ({ ...before, ...change }));

/** Where people taste, and the look of the tablets there. */
export function RoomFields({ draft }: Props) {
  const { place, placeHint } = planWords.serving;
  const { palette, paletteOptions } = planWords.samples;
  return (
    <>
      <TextField
        id="kitchen-place"
        label={place}
        hint={placeHint}
        value={draft.kitchen.place}
        onInput={(typed) => set(draft, { place: typed })}
      />
      <Choice
        id="kitchen-palette"
        legend={palette}
        options={paletteOptions}
        value={draft.kitchen.palette}
        onChange={(chosen) => set(draft, { palette: chosen })}
      />
    </>
  );
}

/** Who usually tastes, for whom they stand, and how often chance may fool. */
export function PanelFields({ draft }: Props) {
  const { alpha, alphaOptions } = planWords.method;
  const now = draft.kitchen.alpha;
  const known = alphaOptions.some(({ value }) => value === now);
  return (
    <>
      <Choice
        id="kitchen-panel-type"
        legend={kitchenWords.panelType}
        options={kitchenWords.panelTypes}
        value={draft.kitchen.panelType}
        onChange={(panelType) => set(draft, { panelType })}
      />
      <TextField
        id="kitchen-contact"
        label={organizerConsent.contact}
        hint={organizerConsent.contactHint}
        value={draft.kitchen.contact}
        onInput={(contact) => set(draft, { contact })}
      />
      <TextField
        id="kitchen-stands-for"
        label={planWords.question.standsFor}
        hint={planWords.question.standsForHint}
        value={draft.kitchen.standsFor}
        onInput={(standsFor) => set(draft, { standsFor })}
      />
      <Choice
        id="kitchen-alpha"
        legend={alpha}
        options={
          known ? alphaOptions : [...alphaOptions, { value: now, label: kitchenWords.otherAlpha(now), hint: "" }]
        }
        value={now}
        onChange={(chosen) => set(draft, { alpha: chosen })}
      />
    </>
  );
}

/** Cautions beyond those that every tasting has. */
export function CautionFields({ draft }: Props) {
  const { cautionTexts, applies } = planWords.safety;
  return (
    <>
      <p class="fine">{kitchenWords.cautionsHint}</p>
      {(["undercooked", "alcohol"] as const).map((caution) => (
        <Check
          key={caution}
          id={`kitchen-${caution}`}
          label={applies(cautionTexts[caution].name)}
          checked={draft.kitchen.cautionsApplying.includes(caution)}
          onChange={(on) => draft.edit((before) => withCaution(before, caution, on))}
        />
      ))}
    </>
  );
}

/** Codes that mean something in this house. What is typed stays as typed while it says the same. */
export function CodesField({ draft }: Props) {
  const { avoid, avoidHint, badCodes } = planWords.serving;
  const { avoidCodes } = draft.kitchen;
  const [typed, setTyped] = useState(avoidCodes.join(" "));
  const { codes, bad } = readCodes(typed);
  const same = codes.slice(0, 300).join(" ") === avoidCodes.join(" ");
  return (
    <TextField
      id="kitchen-avoid"
      label={avoid}
      hint={avoidHint}
      value={same ? typed : avoidCodes.join(" ")}
      max={1500}
      problem={same && bad !== null ? badCodes(bad) : null}
      onInput={(text) => {
        setTyped(text);
        set(draft, { avoidCodes: readCodes(text).codes.slice(0, 300) });
      }}
    />
  );
}
