import { advice, askedNext } from "../design/advice.ts";
import type { Plan } from "../model/plan.ts";
import { goesBy } from "../model/plan-question.ts";
import { focusSoon } from "../ui/focus.ts";
import { adviceWords as words } from "../words/en/organizer-advice.ts";
import { planWords } from "../words/en/organizer-plan.ts";
import { takeAdvice } from "./plan-advice.ts";
import type { Draft } from "./use-draft.ts";

/** What the planner proposes, why, what to beware of, and the way to take it. Nothing before there is an answer. */
export function Proposal({ draft: { plan, edit } }: { draft: Draft }) {
  const given = advice(plan);
  if (given === null) return <p class="fine">{words.none}</p>;
  const follows = goesBy(plan, given);
  const open = askedNext(plan).filter((question) => plan.asked[question] === null).length;
  return (
    <div class="proposal group">
      <p class="label">{words.proposal}</p>
      <p class="lead-in">{words.proposed(given)}</p>
      {given.why.map((reason) => (
        <p key={reason}>{words.why[reason]}</p>
      ))}
      {given.warnings.map((warning) => (
        <p key={warning} class="note">
          {words.warnings[warning]}
        </p>
      ))}
      <p class="fine">
        {given.alternatives.length === 0
          ? ""
          : words.alternatives(given.alternatives.map(({ method, why }) => words.alternative(method, why)))}
      </p>
      {open > 0 ? <p class="fine">{words.openAnswers(open)}</p> : null}
      {follows ? (
        <p>{words.follows}</p>
      ) : (
        <>
          <IfTaken plan={plan} method={given.method} goal={given.goal} />
          <p class="after-row">
            <button
              type="button"
              onClick={() => {
                edit((before) => takeAdvice(before, given, given.reference));
                focusSoon("method-method");
              }}
            >
              {words.take(given.method)}
            </button>
            <span class="fine">{plan.method === given.method ? words.otherGoal : words.differs(plan.method)}</span>
          </p>
        </>
      )}
    </div>
  );
}

/** What the proposed method would allow to say; that of the chosen one stands below. */
function IfTaken({ plan, method, goal }: { plan: Plan } & Pick<Plan, "method" | "goal">) {
  if (plan.method === method && plan.goal === goal) return null;
  const { yes, no } = planWords.method.says[method][goal];
  return (
    <dl class="said">
      <dt>{planWords.method.yesTerm}</dt>
      <dd>{yes}</dd>
      <dt>{planWords.method.noTerm}</dt>
      <dd>{no}</dd>
    </dl>
  );
}
