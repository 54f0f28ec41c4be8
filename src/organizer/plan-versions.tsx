import type { DraftVersion, StudyState } from "../log/fold.ts";
import { focusSoon } from "../ui/focus.ts";
import { versionWords as words } from "../words/en/organizer-versions.ts";
import { type Difference, planDifferences } from "./differences.ts";
import { headingId } from "./page.tsx";
import type { PlanDraft } from "./use-draft.ts";

type Props = { state: StudyState; draft: PlanDraft; nameOf: (device: string) => string };

export const versionsId = "plan-versions";

/**
 * Versions of a plan that two leads wrote without knowing of each other: which one stands, in what each other one
 * differs, and the ways to settle it. Nothing goes: whatever is chosen, both stay in the log.
 */
export function PlanVersions({ state: { draft: standing, otherDrafts }, draft, nameOf }: Props) {
  if (!standing || otherDrafts.length === 0) return null;
  const settle = (instead: DraftVersion | null): void => {
    draft.settle(instead?.plan ?? null);
    focusSoon(headingId);
  };
  return (
    <section class="versions" id={versionsId} tabIndex={-1} aria-labelledby="versions-heading">
      <h2 id="versions-heading">{words.heading(otherDrafts.length + 1)}</h2>
      <p>{words.stands(nameOf(standing.device), standing.at)}</p>
      {otherDrafts.map((other) => (
        <Other key={other.event} other={other} draft={draft} name={nameOf(other.device)} settle={settle} />
      ))}
      <p class="after-row">
        <button type="button" class="next" onClick={() => settle(null)}>
          {words.keep}
        </button>
        <span class="fine">{words.keepHint}</span>
      </p>
    </section>
  );
}

type OtherProps = {
  other: DraftVersion;
  draft: PlanDraft;
  name: string;
  settle: (instead: DraftVersion | null) => void;
};

function Other({ other, draft, name, settle }: OtherProps) {
  const differs = planDifferences(draft.plan, other.plan);
  return (
    <>
      <h3>{words.other(name, other.at)}</h3>
      {differs.length === 0 ? <p>{words.same}</p> : null}
      <ul class="differences">
        {differs.map((each) => (
          <Row
            key={each.key}
            difference={each}
            take={() => {
              draft.edit(each.take, words.taken(each.label));
              void draft.flush();
              focusSoon(versionsId);
            }}
          />
        ))}
      </ul>
      {differs.length === 0 ? null : (
        <p>
          <button type="button" onClick={() => settle(other)}>
            {words.takeAll}
            <span class="unseen">{words.takeAllOf(name)}</span>
          </button>
        </p>
      )}
    </>
  );
}

function Row({
  difference: { label, mine, theirs },
  take,
}: {
  difference: Omit<Difference<unknown>, "take">;
  take: () => void;
}) {
  return (
    <li>
      <p class="label">{label}</p>
      <dl>
        <div>
          <dt>{words.here}</dt>
          <dd>{mine}</dd>
        </div>
        <div>
          <dt>{words.there}</dt>
          <dd>{theirs}</dd>
        </div>
      </dl>
      <button type="button" class="quiet" onClick={take}>
        {words.take}
        <span class="unseen">{words.takeOf(label)}</span>
      </button>
    </li>
  );
}

/** While somebody types further down: that there is something to settle, and the way to it. */
export function VersionsLine({ state }: { state: StudyState }) {
  if (state.otherDrafts.length === 0) return null;
  return (
    <p class="undo" role="status">
      {words.heading(state.otherDrafts.length + 1)}{" "}
      <button type="button" class="quiet" onClick={() => focusSoon(versionsId)}>
        {words.look}
      </button>
    </p>
  );
}
