import { useState } from "preact/hooks";
import { seenHeads } from "../device/pull.ts";
import type { StudyState } from "../log/fold.ts";
import type { Body } from "../model/event.ts";
import type { OpenedKey } from "../model/key.ts";
import { trayLabel } from "../model/tray.ts";
import { openKey } from "../seal/open.ts";
import { listed } from "../words/en/organizer.ts";
import { lockWords } from "../words/en/organizer-lock.ts";
import { appendEvent, type Lead, useLead } from "./app-context.ts";
import { contestedTrays, lateBallots } from "./day.ts";
import { fetchStudy } from "./facts.ts";
import { Choice, TextField } from "./fields.tsx";
import { Invented } from "./invented.tsx";
import { Page } from "./page.tsx";
import { readPaperKey } from "./paper-key.ts";
import { ProblemNote } from "./problem-note.tsx";
import { reportAddress, stepAddress } from "./route.ts";
import { BackToDay } from "./step-parts.tsx";
import type { StudyProps } from "./study.tsx";
import { WordGate } from "./word-gate.tsx";

const words = lockWords.open;

/** How the key is to be opened: what somebody typed. */
export type Opener = { by: "passphrase" | "page"; text: string };

/** The opened key, checked against the locked commitment; throws the Problem when it does not open. */
export const openWith = ({ by, text }: Opener, lock: Body<"study-locked">): Promise<OpenedKey> =>
  by === "passphrase" ? openKey(lock.sealed, text) : Promise.resolve(readPaperKey(text, lock));

/** The last step: the key goes into the log, and the answers come out. */
export function OpenKey({ id, state, fetching }: StudyProps) {
  if (state.reveal) return <Opened id={id} whole={[...state.facts.values()].every((fact) => !fact.outline)} />;
  if (!state.close || !state.lock) {
    return (
      <Page heading={words.heading} windowTitle={words.heading}>
        <BackToDay id={id} />
        <p class="lead-in">{words.notClosed}</p>
        <p>
          <a href={stepAddress(id, "close")}>{words.toClose}</a>
        </p>
      </Page>
    );
  }
  return <OpenForm id={id} state={state} lock={state.lock.body} fetched={fetching.thrown === null} />;
}

function OpenForm(props: { id: string; state: StudyState; lock: Body<"study-locked">; fetched: boolean }) {
  const { id, state, lock, fetched } = props;
  const lead = useLead();
  const [opener, setOpener] = useState<Opener>({ by: "passphrase", text: "" });
  const [busy, setBusy] = useState(false);
  const [thrown, setThrown] = useState<unknown>(null);

  async function open(): Promise<void> {
    setBusy(true);
    setThrown(null);
    try {
      await revealNow(lead, id, await openWith(opener, lock));
    } catch (failure) {
      setThrown(failure);
      setBusy(false);
    }
  }

  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{words.lead}</p>
      <Warnings id={id} state={state} fetched={fetched} />
      <Invented plan={lock.plan} opens />
      <section>
        <OpenerFields opener={opener} onOpener={setOpener} />
        <ProblemNote thrown={thrown} />
      </section>
      <section class="heavy">
        <WordGate
          word={words.word}
          action={words.action}
          working={words.working}
          busy={busy}
          hindrance={opener.text.trim() === "" ? words.missing : null}
          go={() => void open()}
        />
      </section>
    </Page>
  );
}

/** The two ways in: the passphrase, or what the sealed page says. */
export function OpenerFields({ opener, onOpener }: { opener: Opener; onOpener: (opener: Opener) => void }) {
  return (
    <>
      <Choice
        id="open-by"
        legend={words.how}
        options={[
          { value: "passphrase", label: words.byPassphrase, hint: "" },
          { value: "page", label: words.byPage, hint: "" },
        ]}
        value={opener.by}
        onChange={(by) => onOpener({ by: by === "page" ? "page" : "passphrase", text: "" })}
      />
      {opener.by === "passphrase" ? (
        <TextField
          id="open-passphrase"
          label={words.passphrase}
          hint={words.passphraseHint}
          value={opener.text}
          onInput={(text) => onOpener({ by: "passphrase", text })}
        />
      ) : (
        <TextField
          id="open-page"
          label={words.page}
          hint={words.pageHint}
          rows={6}
          max={60_000}
          value={opener.text}
          onInput={(text) => onOpener({ by: "page", text })}
        />
      )}
    </>
  );
}

function Warnings({ id, state, fetched }: { id: string; state: StudyState; fetched: boolean }) {
  const contested = contestedTrays(state).map(({ tray }) => trayLabel(tray));
  const late = lateBallots(state).map(({ tray }) => trayLabel(tray));
  return (
    <>
      {fetched ? null : <p class="stop">{words.notFetched}</p>}
      {contested.length > 0 ? (
        <p class="note">
          {words.contested(listed(contested))} <a href={stepAddress(id, "settle")}>{words.settle}</a>
        </p>
      ) : null}
      {late.length > 0 ? (
        <p class="note">
          {words.late(listed(late))} <a href={stepAddress(id, "admit")}>{words.admit}</a>
        </p>
      ) : null}
    </>
  );
}

/** Fetches what there is, then writes the reveal with the heads it saw, sends it and fetches the full texts. */
async function revealNow(lead: Lead, id: string, opened: OpenedKey): Promise<void> {
  const stream = { kind: "study" as const, id };
  await fetchStudy(lead, id).catch(() => undefined); // the page has said what an unreachable server means
  const heads = await seenHeads(lead.store, stream);
  await appendEvent(lead, { stream, kind: "key-revealed", body: { heads, opened }, mark: `reveal ${id}` });
  await lead.sendNow();
  await fetchStudy(lead, id).catch(() => undefined);
}

/** `whole`: every full answer is here. Until then the reader's page would say that the study is sealed. */
function Opened({ id, whole }: { id: string; whole: boolean }) {
  return (
    <Page heading={words.heading} windowTitle={words.heading}>
      <BackToDay id={id} />
      <p class="lead-in">{words.done}</p>
      {whole ? (
        <p>
          <a class="button next" href={reportAddress(id)}>
            {words.report}
          </a>
        </p>
      ) : (
        <p class="note" role="status">
          {words.sending}
        </p>
      )}
    </Page>
  );
}
