import { useCallback, useEffect, useState } from "preact/hooks";
import { openParts } from "../design/readiness.ts";
import { shapeOf } from "../model/method.ts";
import { type OpenPart, type PlanPart, planParts } from "../model/open-part.ts";
import { focusSoon } from "../ui/focus.ts";
import { organizer } from "../words/en/organizer.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { rehearsalWords } from "../words/en/organizer-rehearsal.ts";
import { shoppingWords } from "../words/en/organizer-shopping.ts";
import { openPartSentence } from "../words/en/planning.ts";
import { useLead } from "./app-context.ts";
import { BlankNote, MakeBlank } from "./blank-study.tsx";
import { CopiedFrom } from "./copied-from.tsx";
import { FieldProblems } from "./number-field.tsx";
import { headingId, Page } from "./page.tsx";
import { PartMethod } from "./part-method.tsx";
import { partNotes } from "./part-notes.tsx";
import { PartPeople } from "./part-people.tsx";
import { PartQuestion } from "./part-question.tsx";
import { PartSafety } from "./part-safety.tsx";
import { PartSamples } from "./part-samples.tsx";
import { PartServing } from "./part-serving.tsx";
import { PlanAsFile } from "./plan-as-file.tsx";
import { fieldOf, keyOf, pagePartOf } from "./plan-fields.ts";
import { summaryOf } from "./plan-summary.ts";
import { PlanVersions, VersionsLine } from "./plan-versions.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { stepAddress } from "./route.ts";
import type { StudyProps } from "./study.tsx";
import { StudyClaims } from "./study-claims.tsx";
import { UndoBar } from "./undo-bar.tsx";
import { useDevices } from "./use-devices.ts";
import { type Draft, useDraft } from "./use-draft.ts";

const fieldsOf: Record<PlanPart, (props: { draft: Draft }) => preact.ComponentChildren> = {
  question: PartQuestion,
  method: PartMethod,
  people: PartPeople,
  samples: PartSamples,
  serving: PartServing,
  safety: PartSafety,
};

/** A plan on one page: six parts, each folded to one sentence, one of them open to change. */
export function PlanPage({ id, state, field }: StudyProps & { field: string | null }) {
  const lead = useLead();
  const draft = useDraft(id, state);
  const { plan } = draft;
  const devices = useDevices();
  const nameOf = (device: string) => (device === lead.who.device ? lead.who.name : devices.nameOf(device));
  const open = openParts(plan);
  const [shown, setShown] = useState<PlanPart | null>(() => firstOpen(open));
  const [problems, setProblems] = useState<Record<string, string>>({});
  const report = useCallback((field: string, sentence: string | null) => {
    setProblems(({ [field]: _before, ...rest }) => (sentence === null ? rest : { ...rest, [field]: sentence }));
  }, []);
  useEffect(() => {
    const asked = open.find((each) => fieldOf(each) === field);
    if (asked && field !== null) jump(pagePartOf(asked), field);
  }, [field]);
  const begun = beginning(state);
  const jump = (part: PlanPart, field: string): void => {
    setShown(part);
    focusSoon(field, "center");
  };

  return (
    <FieldProblems.Provider value={report}>
      <Page
        heading={plan.title.trim() || organizer.untitled}
        windowTitle={plan.title.trim() || organizer.untitled}
        margin={partNotes(shown, plan)}
      >
        <p class="fine under">{begun ? planWords.begun(begun) : ""}</p>
        <CopiedFrom plan={plan} />
        <BlankNote plan={plan} />
        <StudyClaims study={id} plan={plan} />
        <PlanVersions state={state} draft={draft} nameOf={nameOf} />
        {lead.keep?.at === "failed" ? <ProblemNote thrown={lead.keep.thrown} /> : null}
        <FieldProblemList problems={problems} />
        <ol class="parts" onFocusOut={() => void draft.flush()}>
          {planParts.map((part, at) => (
            <Part
              key={part}
              part={part}
              number={at + 1}
              draft={draft}
              open={open.filter((each) => pagePartOf(each) === part)}
              shown={shown === part}
              onToggle={() => setShown(shown === part ? null : part)}
              onNext={(next) => jump(next, headingOf(next))}
              jump={jump}
            />
          ))}
        </ol>
        {shapeOf(plan.method).answer === "portions" ? null : (
          <p class="after-row">
            <a class="button" href={stepAddress(id, "rehearse")}>
              {rehearsalWords.link}
            </a>
            <span class="fine">{rehearsalWords.linkHint}</span>
          </p>
        )}
        <p class="after-row">
          <a class="button" href={stepAddress(id, "shopping")}>
            {shoppingWords.link}
          </a>
          <span class="fine">{shoppingWords.linkHint}</span>
        </p>
        <LockLine id={id} open={open} flush={draft.flush} />
        <PlanAsFile study={id} plan={plan} />
        <MakeBlank study={id} plan={plan} />
        <div class="foot">
          <VersionsLine state={state} />
          <UndoBar {...draft} then={() => focusSoon(shown === null ? headingId : headingOf(shown))} />
        </div>
      </Page>
    </FieldProblems.Provider>
  );
}

type PartProps = {
  part: PlanPart;
  number: number;
  draft: Draft;
  open: OpenPart[];
  shown: boolean;
  onToggle: () => void;
  onNext: (part: PlanPart) => void;
  jump: (part: PlanPart, field: string) => void;
};

function Part({ part, number, draft, open, shown, onToggle, onNext, jump }: PartProps) {
  const Fields = fieldsOf[part];
  const name = planWords.parts[part];
  const summary = summaryOf(part, draft.plan);
  const next = planParts[number];
  return (
    <li class={shown ? "here" : undefined}>
      <span class="place" aria-hidden="true">
        {number}
      </span>
      <h2 id={headingOf(part)} tabIndex={-1}>
        {name}
      </h2>
      <button type="button" class="quiet" aria-expanded={shown} onClick={onToggle}>
        {shown ? planWords.done : planWords.change}
        <span class="unseen">{planWords.ofPart(name)}</span>
      </button>
      <div class="body">
        {shown ? null : summary ? <p class="summary">{summary}</p> : <p class="summary">{planWords.notStarted}</p>}
        {open.length > 0 && (shown || summary) ? <OpenList open={open} jump={jump} /> : null}
        {shown ? (
          <div class="fields">
            <Fields draft={draft} />
            {next ? (
              <p class="after">
                <button type="button" onClick={() => onNext(next)}>
                  {planWords.nextPart}: {planWords.parts[next]}
                </button>
              </p>
            ) : null}
          </div>
        ) : null}
      </div>
    </li>
  );
}

/** What a part still lacks, each a way to its field. */
function OpenList({ open, jump }: Pick<PartProps, "open" | "jump">) {
  return (
    <ul class="open fine">
      {open.map((each) => {
        const field = fieldOf(each);
        return (
          <li key={keyOf(each)}>
            <a
              href={`#${field}`}
              onClick={(event) => {
                event.preventDefault();
                jump(pagePartOf(each), field);
              }}
            >
              {openPartSentence(each)}
            </a>
          </li>
        );
      })}
    </ul>
  );
}

function FieldProblemList({ problems }: { problems: Record<string, string> }) {
  const list = Object.entries(problems);
  if (list.length < 2) return null;
  return (
    <div class="wrong">
      <p>{organizer.errors.listHeading}</p>
      <ul>
        {list.map(([field, sentence]) => (
          <li key={field}>
            <a
              href={`#${field}`}
              onClick={(event) => {
                event.preventDefault();
                focusSoon(field, "center");
              }}
            >
              {sentence}
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}

function LockLine({ id, open, flush }: { id: string; open: OpenPart[]; flush: () => Promise<void> }) {
  const parts = [...new Set(open.map(pagePartOf))].map((part) => planWords.parts[part]);
  return (
    <section class="heavy lock-line">
      <p>{parts.length === 0 ? planWords.lockLine : planWords.lockOpen(parts)}</p>
      <button
        type="button"
        class={parts.length === 0 ? "next" : undefined}
        onClick={() => {
          void flush().then(() => {
            window.location.hash = stepAddress(id, "lock");
          });
        }}
      >
        {planWords.toLock}
      </button>
    </section>
  );
}

const headingOf = (part: PlanPart): string => `part-${part}`;

const firstOpen = (open: OpenPart[]): PlanPart | null =>
  planParts.find((part) => open.some((each) => pagePartOf(each) === part)) ?? null;

function beginning(state: StudyProps["state"]): string | null {
  let first: string | null = null;
  for (const { at, kind } of state.facts.values()) {
    if (kind === "draft-saved" && (first === null || at < first)) first = at;
  }
  return first;
}
