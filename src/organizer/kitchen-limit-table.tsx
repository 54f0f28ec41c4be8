import { useState } from "preact/hooks";
import type { LimitTable, OutLimit, SafetyLimit } from "../model/safety-limit.ts";
import { focusSoon } from "../ui/focus.ts";
import { limitWords } from "../words/en/organizer-limits.ts";
import { useLead } from "./app-context.ts";
import { describedBy, Field, Select, TextField } from "./fields.tsx";
import {
  allChecked,
  changeLimit,
  type LimitChange,
  mostLimits,
  placeOf,
  withLimit,
  withoutLimit,
  withTable,
} from "./kitchen-limits.ts";
import { NumberField } from "./number-field.tsx";
import type { KitchenDraft } from "./use-kitchen.ts";

const words = limitWords.kitchen;
const kinds = ["cooking", "hot-holding", "cold-holding", "out"] as const satisfies readonly SafetyLimit["kind"][];
const tables = ["consumer", "food-service"] as const satisfies readonly LimitTable[];

const rowId = (at: number): string => `limit-${at}`;

/** The kitchen's table of limits: each row with its source and the day on which it was checked. */
export function LimitTableFields({ draft }: { draft: KitchenDraft }) {
  const lead = useLead();
  const { limits } = draft.kitchen;
  // a row that was just added stands open
  const [added, setAdded] = useState<number | null>(null);
  const full = limits.length >= mostLimits;
  const add = (kind: SafetyLimit["kind"]): void => {
    const at = placeOf(limits, kind);
    setAdded(at);
    draft.edit((before) => withLimit(before, kind));
    focusSoon(`${rowId(at)}-first`, "center");
  };
  return (
    <>
      <p class="fine">
        {words.lead} {words.lead2}
      </p>
      {limits.length === 0 ? <p class="after">{words.none}</p> : null}
      {limits.map((limit, at) => (
        <LimitRow
          key={`${limits.length} ${at}`}
          limit={limit}
          id={rowId(at)}
          open={added === at}
          change={(what) => draft.edit((before) => changeLimit(before, at, what))}
          remove={() => {
            setAdded(null);
            draft.edit((before) => withoutLimit(before, at), words.removed);
            focusSoon("limit-add-cooking");
          }}
        />
      ))}
      <p class="after-row">
        {kinds.map((kind) => (
          <button
            key={kind}
            type="button"
            id={`limit-add-${kind}`}
            aria-disabled={full ? "true" : undefined}
            onClick={() => full || add(kind)}
          >
            {words.add[kind]}
          </button>
        ))}
        {full ? <span class="fine">{words.full(mostLimits)}</span> : null}
      </p>
      <p class="after-row">
        <button
          type="button"
          class="quiet"
          onClick={() => draft.edit((before) => allChecked(before, lead.now().slice(0, 10)), words.checkedAll)}
        >
          {words.checkAll}
        </button>
      </p>
      <p class="after-row">
        <span class="fine">{words.begin}</span>
        {tables.map((table) => (
          <button
            key={table}
            type="button"
            class="quiet"
            onClick={() => draft.edit((before) => withTable(before, table), words.replaced)}
          >
            {words.tables[table]}
          </button>
        ))}
      </p>
    </>
  );
}

type RowProps = {
  limit: SafetyLimit;
  id: string;
  open: boolean;
  change: (what: LimitChange) => void;
  remove: () => void;
};

function LimitRow({ limit, id, open, change, remove }: RowProps) {
  const { fields } = words;
  return (
    <details class="declared" open={open}>
      <summary id={`${id}-first`}>
        {limit.kind === "cooking" ? `${limitWords.food(limit.food)}: ` : ""}
        {limitWords.text(limit)} <span class="soft origin">{limitWords.origin(limit.source, limit.checked)}</span>
      </summary>
      {limit.kind === "cooking" ? (
        <TextField id={`${id}-food`} label={fields.food} value={limit.food} onInput={(food) => change({ food })} />
      ) : null}
      {limit.kind === "out" ? (
        <OutFields limit={limit} id={id} change={change} />
      ) : (
        <DegreeFields limit={limit} id={id} change={change} />
      )}
      <TextField
        id={`${id}-source`}
        label={fields.source}
        value={limit.source}
        onInput={(source) => change({ source })}
      />
      <Field id={`${id}-checked`} label={fields.checked} hint={fields.checkedHint}>
        <input
          type="date"
          id={`${id}-checked`}
          value={limit.checked}
          aria-describedby={describedBy(`${id}-checked`, fields.checkedHint)}
          onInput={(event) => change({ checked: event.currentTarget.value })}
        />
      </Field>
      <p>
        <button type="button" class="quiet" onClick={remove}>
          {words.remove}
          <span class="unseen">: {limitWords.text(limit)}</span>
        </button>
      </p>
    </details>
  );
}

type FieldsProps<L> = { limit: L; id: string; change: (what: LimitChange) => void };

function DegreeFields({ limit, id, change }: FieldsProps<Exclude<SafetyLimit, OutLimit>>) {
  const { fields, units } = words;
  return (
    <div class="row">
      <NumberField
        id={`${id}-celsius`}
        label={fields.celsius}
        unit={units.celsius}
        value={limit.celsius}
        low={-40}
        high={130}
        onValue={(celsius) => celsius !== null && change({ celsius })}
      />
      {limit.kind === "cooking" ? (
        <>
          <NumberField
            id={`${id}-held`}
            label={fields.heldSeconds}
            unit={units.seconds}
            value={limit.heldSeconds}
            low={0}
            high={86_400}
            whole
            onValue={(heldSeconds) => heldSeconds !== null && change({ heldSeconds })}
          />
          <NumberField
            id={`${id}-rest`}
            label={fields.restMinutes}
            unit={units.minutes}
            value={limit.restMinutes}
            low={0}
            high={600}
            whole
            onValue={(restMinutes) => restMinutes !== null && change({ restMinutes })}
          />
        </>
      ) : null}
    </div>
  );
}

function OutFields({ limit, id, change }: FieldsProps<OutLimit>) {
  const { fields, units } = words;
  const condition = (what: "airAtMost" | "foodAtMost") => (
    <NumberField
      id={`${id}-${what}`}
      label={fields[what]}
      unit={units.celsius}
      value={limit[what]}
      low={-40}
      high={130}
      mayBeEmpty
      onValue={(celsius) => change({ [what]: celsius })}
    />
  );
  return (
    <>
      <Select
        id={`${id}-from`}
        label={fields.from}
        value={limit.from}
        options={words.froms}
        onChange={(chosen) => change({ from: words.froms.find(({ value }) => value === chosen)?.value ?? "either" })}
      />
      <div class="row">
        <NumberField
          id={`${id}-minutes`}
          label={fields.minutes}
          unit={units.minutes}
          value={limit.minutes}
          low={1}
          high={2880}
          whole
          onValue={(minutes) => minutes !== null && change({ minutes })}
        />
        {condition("airAtMost")}
        {condition("foodAtMost")}
      </div>
    </>
  );
}
