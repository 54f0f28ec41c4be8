import { useState } from "preact/hooks";
import { call } from "../device/transport.ts";
import { codeReply, type Role } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import { tabletWords } from "../words/en/organizer-tablets.ts";
import { useLead } from "./app-context.ts";
import { Choice, Select, TextField } from "./fields.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { Qr } from "./qr.tsx";
import { useDoing } from "./step-parts.tsx";
import type { Servable } from "./tablets.tsx";

type Made = { code: string; expiresAt: string; role: Role };
const entries: Record<Role, string> = { panel: "/panel/", reader: "/report/", lead: "/organizer/" };

/** Makes a one-time code for a tablet, a reader or a second lead, and shows it large. */
export function AddDevice({ servable }: { servable: Servable[] }) {
  const words = tabletWords.make;
  const lead = useLead();
  const doing = useDoing();
  const [role, setRole] = useState<Role>("panel");
  const [study, setStudy] = useState<string | null>(null);
  const [name, setName] = useState("");
  const [made, setMade] = useState<Made | null>(null);
  const serves = study ?? servable[0]?.id ?? "";

  const submit = (): void =>
    doing.run(async () => {
      const body = { role, study: role === "panel" && serves !== "" ? serves : null, name: name.trim() };
      const outcome = await call(lead.fetcher, codeReply, "/api/codes", { token: lead.who.token, body });
      if (!outcome.ok) throw new Problem(outcome.problem);
      setMade({ ...outcome.reply, role });
      setName("");
    });

  return (
    <section class="heavy">
      <h2>{words.heading}</h2>
      {made ? <Code made={made} onDone={() => setMade(null)} /> : null}
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        <Choice id="add-role" legend={words.role} options={words.roles} value={role} onChange={setRole} />
        {role === "panel" ? (
          <Select
            id="add-study"
            label={words.study}
            value={serves}
            options={[
              ...servable.map(({ id, title }) => ({ value: id, label: title })),
              { value: "", label: words.later },
            ]}
            onChange={setStudy}
          />
        ) : null}
        <TextField id="add-name" label={words.name} hint={words.nameHint} value={name} onInput={setName} />
        <ProblemNote thrown={doing.thrown} />
        <p>
          <button type="submit" class={made ? undefined : "next"} aria-disabled={doing.busy ? "true" : undefined}>
            {doing.busy ? words.working : words.submit}
          </button>
        </p>
      </form>
    </section>
  );
}

function Code({ made, onDone }: { made: Made; onDone: () => void }) {
  const words = tabletWords.code;
  const lead = useLead();
  const over = made.expiresAt !== "" && made.expiresAt < lead.now();
  const address = `${window.location.origin}${entries[made.role]}`;
  // "localhost" means another computer on every other device
  const local = /^(localhost|127\.|\[::1\])/.test(window.location.hostname);
  if (over) return <p class="note">{words.over}</p>;
  return (
    <div class="one-time" role="status">
      <p>
        {local ? words.local : words.open} <strong>{local ? entries[made.role] : address}</strong>
      </p>
      <p class="big-code">{made.code}</p>
      <p class="fine">{words.until(made.expiresAt)}</p>
      {made.role === "lead" && !local ? (
        <>
          <p>{words.scan}</p>
          <Qr text={`${address}#setup=${made.code}`} label={words.qr} size="9rem" />
        </>
      ) : null}
      <p>
        <button type="button" class="quiet" onClick={onDone}>
          {words.done}
        </button>
      </p>
    </div>
  );
}
