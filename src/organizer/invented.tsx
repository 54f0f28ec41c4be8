import { demoPassphrase } from "../demo/chance.ts";
import type { Plan } from "../model/plan.ts";
import { demoWords } from "../words/en/demo.ts";

type Props = {
  plan: Pick<Plan, "invented">;
  /** Is its key still sealed? Then the words that open it stand here, and, with `taste`, what to do with it. */
  opens?: boolean;
  taste?: boolean;
};

/** Says that a study is the demo's. Nothing for any other study. */
export function Invented({ plan, opens = false, taste = false }: Props) {
  if (!plan.invented) return null;
  if (!opens) return <p class="note">{demoWords.invented}</p>;
  return (
    <div class="note">
      <p>{demoWords.waiting(demoPassphrase())}</p>
      {taste ? <p>{demoWords.taste}</p> : null}
    </div>
  );
}
