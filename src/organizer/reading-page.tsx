import { useState } from "preact/hooks";
import type { WaveDay } from "../log/kitchen-day.ts";
import type { Plan } from "../model/plan.ts";
import { trayLabel } from "../model/tray.ts";
import { focusSoon } from "../ui/focus.ts";
import { useReading } from "../ui/use-store.ts";
import { figure } from "../words/en/organizer-figures.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { Labels, TypedNumber } from "./day-parts.tsx";
import { writeDay } from "./day-write.ts";
import { watchOf } from "./facts.ts";
import { Choice, Select, TextField } from "./fields.tsx";
import { Page } from "./page.tsx";
import { ProblemNote } from "./problem-note.tsx";
import {
  asksHeld,
  entryOf,
  type Hindrances,
  hindrancesOf,
  isLeaving,
  limitBeside,
  nothingTyped,
  potsToRead,
  type Said,
  saidOf,
  type Typed,
} from "./reading-entry.ts";
import { BackToDay, useDoing } from "./step-parts.tsx";

const words = onDayWords.reading;
const saidId = "reading-said";
const probeName = "probe";

type Props = { id: string; plan: Plan; wave: WaveDay };
/** `again`: another reading of the pot may free it; of what is held none does. */
type Kept = Said & { entry: string; pot: string | null; allowed: boolean; again: boolean };

/** A reading of one pot: typed, kept, and said at once what it means. */
export function ReadingPage({ id, plan, wave }: Props) {
  const lead = useLead();
  const doing = useDoing();
  const [typed, setTyped] = useState<Typed>(nothingTyped);
  const [tried, setTried] = useState(false);
  const [kept, setKept] = useState<Kept | null>(null);
  const known = useReading(() => lead.store.meta(probeName), watchOf(lead.store), []);
  const probe = typed.probe || (typeof known === "string" ? known : "");
  const heading = words.heading(wave.wave);

  const submit = (): void => {
    setTried(true);
    const entry = entryOf({ ...typed, probe }, wave, lead.now());
    if (entry === null) return;
    doing.run(async () => {
      const fact = await writeDay(lead, id, entry.kind, entry.body);
      if (entry.kind === "core-read") await lead.store.setMeta(probeName, entry.body.probe);
      const pot = "pot" in entry.body ? entry.body.pot : null;
      const again = entry.kind === "core-read";
      setKept({ ...saidOf(entry, plan, wave), entry: fact.id, pot, allowed: false, again });
      setTyped({ ...nothingTyped, kind: typed.kind });
      setTried(false);
      focusSoon(saidId, "start");
    });
  };
  const allow = (by: string): void =>
    doing.run(async () => {
      if (!kept) return;
      await writeDay(lead, id, "cooking-excepted", { reading: kept.entry, by, note: "" });
      setKept({ ...kept, text: words.allowed(kept.pot ?? "", by), stop: false, allow: null, allowed: true });
    });
  // told by the day as it is with the entry: whether a later one helped is nothing that the entry alone knows
  const late =
    kept?.again === false && wave.blocked.some((block) => block.why === "out-past" && block.pot === kept.pot);
  return (
    <Page heading={heading} windowTitle={heading}>
      <BackToDay id={id} />
      <div id={saidId} tabIndex={-1} role="status">
        {kept ? <Answer kept={late ? { ...kept, text: words.timePast(kept.pot ?? ""), stop: true } : kept} /> : null}
      </div>
      {kept?.stop && kept.again ? (
        <div class="day-actions">
          <button type="button" onClick={() => setTyped({ ...nothingTyped, pot: kept.pot, kind: typed.kind })}>
            {words.again}
          </button>
          {kept.allow === null ? null : (
            <button type="button" onClick={() => allow(kept.allow ?? "")}>
              {words.allow(kept.allow)}
            </button>
          )}
        </div>
      ) : null}
      {kept?.allow ? <p class="fine">{words.allowHint(kept.allow)}</p> : null}
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        <Fields
          plan={plan}
          wave={wave}
          typed={{ ...typed, probe }}
          problems={tried ? hindrancesOf(typed) : {}}
          change={(part) => setTyped({ ...typed, ...part })}
        />
        <ProblemNote thrown={doing.thrown} />
        <p>
          <button type="submit" class="next" aria-disabled={doing.busy ? "true" : undefined}>
            {words.submit}
          </button>
        </p>
      </form>
    </Page>
  );
}

function Answer({ kept }: { kept: Kept }) {
  return kept.stop ? (
    <p class="stop">
      <strong>{onDayWords.wave.stop}</strong> {kept.text}
    </p>
  ) : (
    <p class="note">{kept.text}</p>
  );
}

type FieldsProps = {
  plan: Plan;
  wave: WaveDay;
  typed: Typed;
  problems: Hindrances;
  change: (part: Partial<Typed>) => void;
};

function Fields({ plan, wave, typed, problems, change }: FieldsProps) {
  const { kind } = typed;
  const pots = potsToRead(wave).map(({ pot }) => ({ value: pot, label: pot }));
  return (
    <>
      <Choice
        id="reading-kind"
        legend={words.what}
        options={words.kinds}
        value={kind}
        onChange={(next) => change({ kind: next })}
      />
      {kind === "serving" ? (
        <Select
          id="reading-tray"
          label={words.tray}
          value={typed.tray === null ? "" : String(typed.tray)}
          options={[
            { value: "", label: words.anyTray },
            ...wave.trays.map((tray) => ({ value: String(tray), label: trayLabel(tray) })),
          ]}
          onChange={(value) => change({ tray: value === "" ? null : Number(value) })}
        />
      ) : (
        <Labels
          id="reading-pot"
          legend={words.pot}
          options={pots}
          value={typed.pot}
          onChange={(pot) => change({ pot })}
          problem={problems.pot ?? null}
        />
      )}
      {isLeaving(kind) ? (
        <TypedNumber
          id="reading-ago"
          label={words.ago}
          hint={words.agoHint}
          mode="numeric"
          value={typed.ago}
          onInput={(ago) => change({ ago })}
          problem={problems.ago ?? null}
        />
      ) : (
        <TypedNumber
          id="reading-celsius"
          label={words.celsius}
          hint={besideText(kind, plan)}
          value={typed.celsius}
          onInput={(celsius) => change({ celsius })}
          problem={problems.celsius ?? null}
        />
      )}
      {kind === "core" ? <CoreFields plan={plan} typed={typed} problems={problems} change={change} /> : null}
    </>
  );
}

function CoreFields({ plan, typed, problems, change }: Omit<FieldsProps, "wave">) {
  const asks = asksHeld(plan);
  return (
    <>
      {asks.seconds ? (
        <TypedNumber
          id="reading-held"
          label={words.heldSeconds}
          mode="numeric"
          value={typed.heldSeconds}
          onInput={(heldSeconds) => change({ heldSeconds })}
          problem={problems.heldSeconds ?? null}
        />
      ) : null}
      {asks.rest ? (
        <TypedNumber
          id="reading-rest"
          label={words.restMinutes}
          mode="numeric"
          value={typed.restMinutes}
          onInput={(restMinutes) => change({ restMinutes })}
          problem={problems.restMinutes ?? null}
        />
      ) : null}
      <TextField
        id="reading-probe"
        label={words.probe}
        hint={words.probeHint}
        value={typed.probe}
        onInput={(probe) => change({ probe })}
      />
    </>
  );
}

/** The limit, or the planned temperature of a cup, beside the number. */
function besideText(kind: Typed["kind"], plan: Plan): string {
  if (kind === "serving") {
    const planned = plan.serving.servingCelsius;
    return planned === null ? "" : words.planned(figure(planned));
  }
  const limit = limitBeside(kind, plan);
  return limit === null ? words.noLimit : words.limit(limit);
}
