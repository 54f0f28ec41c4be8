import { useState } from "preact/hooks";
import { call } from "../device/transport.ts";
import { codeReply, type Role } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import { focusSoon } from "../ui/focus.ts";
import { tabletWords } from "../words/en/organizer-tablets.ts";
import { useLead } from "./app-context.ts";
import { Choice, Select, TextField } from "./fields.tsx";
import { type Made, OneTimeCode } from "./one-time-code.tsx";
import { ProblemNote } from "./problem-note.tsx";
import { useDoing } from "./step-parts.tsx";
import type { Servable } from "./tablets.tsx";
import type { Devices } from "./use-devices.ts";

const headingId = "add-device";

/** Makes a one-time code for a tablet, a phone of the kitchen, a reader or a second lead, and shows it large. */
export function AddDevice({ servable, devices }: { servable: Servable[]; devices: Devices }) {
  const words = tabletWords.make;
  const lead = useLead();
  const doing = useDoing();
  const [role, setRole] = useState<Role>("panel");
  const [study, setStudy] = useState<string | null>(null);
  const [name, setName] = useState("");
  const [made, setMade] = useState<Made | null>(null);
  const list = devices.list ?? [];
  const serves = study ?? servable[0]?.id ?? "";

  const submit = (): void =>
    doing.run(async () => {
      const body = { role, study: role === "panel" && serves !== "" ? serves : null, name: name.trim() };
      const outcome = await call(lead.fetcher, codeReply, "/api/codes", { token: lead.who.token, body });
      if (!outcome.ok) throw new Problem(outcome.problem);
      setMade({ ...outcome.reply, role, before: devices.list?.map(({ id }) => id) ?? null });
      setName("");
    });
  const done = (): void => {
    setMade(null);
    focusSoon(headingId);
  };

  return (
    <section class="heavy">
      <h2 id={headingId} tabIndex={-1}>
        {words.heading}
      </h2>
      {made ? <OneTimeCode key={made.code} made={made} devices={list} onDone={done} /> : null}
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
