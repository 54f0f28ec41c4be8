import { useState } from "preact/hooks";
import { questionsFor } from "../analysis/finding.ts";
import { type Attachment, effects, type Measure } from "../model/claim.ts";
import { newId } from "../model/id.ts";
import { askedAttributes } from "../model/moments.ts";
import type { Plan } from "../model/plan.ts";
import { focusSoon } from "../ui/focus.ts";
import { momentPhrase } from "../words/en/moment.ts";
import { organizer, plural } from "../words/en/organizer.ts";
import { claimWords } from "../words/en/organizer-claims.ts";
import { attachmentFor, changeMeasure, fits, isTwoFactors, namesOf, withAttached } from "./claim-edit.ts";
import type { MeasureProps } from "./claim-measures.tsx";
import type { ClaimStudy } from "./claim-results.ts";
import { Check, Select } from "./fields.tsx";
import { studyAddress } from "./route.ts";
import type { ClaimDraft } from "./use-claim.ts";

const words = claimWords.attached;
const titleOf = (plan: Plan): string => plan.title.trim() || organizer.untitled;

/** The studies that measure one thing, each with what of it is meant, and the way to attach another. */
export function Attached({ draft, studies, measure }: MeasureProps) {
  const planOf = new Map(studies.map(({ id, plan }) => [id, plan]));
  return (
    <fieldset class="field group">
      <legend>{words.heading}</legend>
      {measure.attached.length === 0 ? <p class="fine">{words.none}</p> : null}
      {measure.attached.map((attachment) => (
        <One
          key={attachment.id}
          draft={draft}
          measure={measure}
          attachment={attachment}
          plan={planOf.get(attachment.study) ?? null}
        />
      ))}
      <Pick draft={draft} studies={studies} measure={measure} />
    </fieldset>
  );
}

/** Studies that could measure it and are not attached to it yet. */
function Pick({ draft, studies, measure }: MeasureProps) {
  const [chosen, setChosen] = useState("");
  const taken = new Set(measure.attached.map(({ study }) => study));
  const free = studies.filter(({ id, plan }) => !taken.has(id) && fits(plan, measure));
  const study = free.find(({ id }) => id === chosen);
  const id = `measure-${measure.id}-study`;
  if (free.length === 0) return taken.size > 0 ? null : <p class="fine">{words.nothing}</p>;
  const attach = ({ id: of, plan }: ClaimStudy): void => {
    const attachment = attachmentFor(newId(), of, plan, measure);
    draft.edit((before) => withAttached(before, measure.id, attachment));
    void draft.flush();
    setChosen("");
    focusSoon(`attached-${attachment.id}`);
  };
  return (
    <div class="gate after">
      <Select
        id={id}
        label={words.pick}
        value={study ? chosen : ""}
        options={[
          { value: "", label: words.notChosen },
          ...free.map((each) => ({ value: each.id, label: titleOf(each.plan) })),
        ]}
        onChange={setChosen}
      />
      <button
        type="button"
        aria-disabled={study ? undefined : "true"}
        onClick={() => (study ? attach(study) : undefined)}
      >
        {words.attach}
      </button>
    </div>
  );
}

type OneProps = { draft: ClaimDraft; measure: Measure; attachment: Attachment; plan: Plan | null };

/** One attached study. */
function One({ draft, measure, attachment, plan }: OneProps) {
  const change = (what: Partial<Attachment>): void => {
    const attached = measure.attached.map((each) => (each.id === attachment.id ? { ...each, ...what } : each));
    draft.edit((before) => changeMeasure(before, measure.id, { attached }));
  };
  const title = plan ? titleOf(plan) : words.unknownStudy;
  const remove = (): void => {
    const attached = measure.attached.filter(({ id }) => id !== attachment.id);
    draft.edit((before) => changeMeasure(before, measure.id, { attached }), words.removed(title));
    focusSoon("measure-add");
  };
  return (
    <div class="attached">
      <p id={`attached-${attachment.id}`} tabIndex={-1}>
        {plan ? <a href={studyAddress(attachment.study)}>{title}</a> : title}{" "}
        <button type="button" class="quiet" onClick={remove}>
          {words.remove(title)}
        </button>
      </p>
      {plan ? <Meant draft={draft} measure={measure} attachment={attachment} plan={plan} change={change} /> : null}
    </div>
  );
}

type MeantProps = OneProps & { plan: Plan; change: (what: Partial<Attachment>) => void };

/** What of the study is meant, as far as there is a choice. */
function Meant({ draft, measure, attachment, plan, change }: MeantProps) {
  const questions = questionsFor(plan, measure.kind);
  const id = (what: string): string => `attached-${attachment.id}-${what}`;
  const factors = isTwoFactors(plan) && plan.comparisons.kind === "two-factors" ? plan.comparisons.factors : null;
  return (
    <div class="pair">
      {questions.length > 1 ? (
        <Select
          id={id("question")}
          label={words.question}
          value={attachment.question ?? questions[0]?.id ?? ""}
          options={questions.map((each) => ({ value: each.id ?? "", label: questionName(plan, each) }))}
          onChange={(question) => change({ question })}
        />
      ) : null}
      {factors && measure.about === "products" ? (
        <Select
          id={id("effect")}
          label={words.effect}
          value={attachment.effect}
          options={effects
            .filter((effect) => effect === "first-factor" || effect === "second-factor")
            .map((effect) => ({ value: effect, label: words.effects(effect, [factors[0].name, factors[1].name]) }))}
          onChange={(value) => change({ effect: effects.find((effect) => effect === value) ?? "first-factor" })}
        />
      ) : null}
      {factors ? (
        <Check
          id={id("turned")}
          label={words.turned}
          checked={attachment.turned}
          onChange={(turned) => change({ turned })}
        />
      ) : null}
      {factors || measure.kind === "noticed" ? null : (
        <Products claim={draft.claim} attachment={attachment} plan={plan} id={id} change={change} />
      )}
    </div>
  );
}

const questionName = (plan: Plan, { id, name }: { id: string | null; name: string }): string => {
  const asked = askedAttributes(plan.scale.attributes).find((each) => each.id === id);
  const at = asked
    ? momentPhrase(asked.moment, (seconds) => `${plural(seconds, "second", "seconds")} after the first bite`)
    : "";
  return plan.method === "line-scale" && at ? `${name}, ${at}` : name;
};

type ProductsProps = Pick<MeantProps, "attachment" | "plan" | "change"> & {
  claim: ClaimDraft["claim"];
  id: (what: string) => string;
};

/** Which of the study's products are the claim's two. Of two there is a choice as well: which is which. */
function Products({ claim, attachment, plan, id, change }: ProductsProps) {
  const names = namesOf(claim, { first: claimWords.claim.unnamedFirst, second: claimWords.claim.unnamedSecond });
  const options = plan.products.map((product) => ({ value: product.id, label: product.name }));
  return (
    <>
      {(["second", "first"] as const).map((which) => (
        <Select
          key={which}
          id={id(which)}
          label={words.product(names[which])}
          value={attachment[which] ?? plan.products[which === "first" ? 0 : 1]?.id ?? ""}
          options={options}
          onChange={(product) => change({ [which]: product })}
        />
      ))}
    </>
  );
}
