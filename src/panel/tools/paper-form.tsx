import { useState } from "preact/hooks";
import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { drawsLine } from "../../model/steps.ts";
import { trayLabel } from "../../model/tray.ts";
import { panelPaper } from "../../words/en/panel-paper.ts";
import { takesPart } from "../../words/en/paper-tick.ts";
import { useDesk } from "../desk.ts";
import type { Tray } from "../flow.ts";
import { Frame } from "../frame.tsx";
import { Plain } from "../screens/pages.tsx";
import { PaperChoices } from "./paper-choices.tsx";
import { PaperMarks } from "./paper-marks.tsx";
import {
  blankForm,
  type Entry,
  entryOf,
  type Form,
  lengthRange,
  type Reading,
  readForm,
  type Said,
  type Wrong,
} from "./paper-reading.ts";

const words = panelPaper.form;

type Props = {
  packet: BlindPacket;
  tray: Tray;
  /** It was typed in before. */
  anew: boolean;
  /** What this person typed before and never kept. */
  begun: Form | null;
  problem: ProblemData | null;
  keep: (said: Said) => void;
  /** A question, as staff find it on the paper. */
  nameOf: (question: number) => string;
  /** Every change, to be laid down. */
  lay: (form: Form) => void;
  leave: () => void;
};

/** What the parts of the form need. */
export type Typing = {
  packet: BlindPacket;
  tray: Tray;
  form: Form;
  wrongOf: (at: Wrong["at"]) => string | null;
  change: (question: number, change: Partial<Entry>) => void;
};

/** One ballot on one page, in the order of the paper. It begins empty, or as the same person left it. */
export function PaperForm(props: Props) {
  const { packet, tray, anew, begun, problem, leave } = props;
  const { form, edit, wrong, hint, submit } = useForm(props);
  const typing: Typing = {
    packet,
    tray,
    form,
    wrongOf: (at) => {
      const found = wrong.find((one) => one.at === at);
      return found ? sentenceOf(found, packet, tray, form) : null;
    },
    change: (question, change) =>
      edit({ ...form, entries: { ...form.entries, [question]: { ...entryOf(form, question), ...change } } }, question),
  };
  const label = trayLabel(tray.tray);
  return (
    <form class="whole paper-form" onSubmit={submit} noValidate>
      <Frame
        title={anew ? words.anew(label) : words.title(label)}
        problem={problem}
        hint={hint}
        left={<Plain label={words.leave} press={leave} />}
        right={
          <button type="submit" class="next">
            {words.submit}
          </button>
        }
      >
        {begun ? <p>{words.begun}</p> : null}
        <p class="fine">{words.how}</p>
        <Head packet={packet} form={form} edit={edit} />
        {packet.line && drawsLine(packet.line.attributes) ? (
          <Length planned={packet.line.lengthMm ?? 0} form={form} edit={edit} wrong={typing.wrongOf("length")} />
        ) : null}
        {packet.line ? <PaperMarks {...typing} /> : <PaperChoices {...typing} />}
      </Frame>
    </form>
  );
}

/** What is on the form, what is wrong with it, and what is asked before it is kept: the same press again keeps it. */
function useForm({ packet, tray, begun, keep, nameOf, lay }: Props) {
  const [form, setForm] = useState<Form>(begun ?? blankForm);
  const [wrong, setWrong] = useState<Wrong[]>([]);
  const [hint, setHint] = useState<string | null>(null);
  const [asked, setAsked] = useState<string | null>(null);
  const edit = (next: Form, at?: Wrong["at"]): void => {
    setForm(next);
    lay(next);
    setWrong((before) => before.filter((one) => one.at !== at));
    setAsked(null);
    setHint(null);
  };
  const submit = (event: Event): void => {
    event.preventDefault();
    const read = readForm(form, packet, tray);
    const [says, mayKeep] = hindrance(read, nameOf);
    setWrong(read.wrong);
    setHint(says);
    setAsked(mayKeep ? says : null);
    if (mayKeep && (says === null || says === asked)) keep(read.said);
  };
  return { form, edit, wrong, hint, submit };
}

/** What is said to a press of the button, and whether the ballot can be kept as it stands. */
function hindrance({ wrong, cleared, empty, said }: Reading, nameOf: Props["nameOf"]): [string | null, boolean] {
  if (wrong.length > 0) {
    const places = wrong.map(({ at }) => (at === "length" ? panelPaper.differences.length : nameOf(at)));
    return [panelPaper.wrongAt(places), false];
  }
  if (!cleared) return [panelPaper.confirm.notCleared, true];
  if (said.choices.length + said.marks.length === 0) return [panelPaper.allEmpty, false];
  return [empty.length > 0 ? panelPaper.confirm.empty(empty.map(nameOf)) : null, true];
}

function sentenceOf({ what }: Wrong, { line }: BlindPacket, { codes }: Tray, { lineMm }: Form): string {
  const said = panelPaper.wrong;
  if (what === "beyond") return said.beyond(Number(lineMm));
  if (what === "order") return said.order(codes.length);
  if (what !== "length-odd") return said[what];
  const { least, most } = lengthRange(line?.lengthMm ?? 0);
  return said[what](least, most);
}

type PartProps = { form: Form; edit: (form: Form, at?: Wrong["at"]) => void };

/** The boxes above the first question, as the paper words them. */
function Head({ packet, form, edit }: PartProps & { packet: BlindPacket }) {
  const { clearance } = useDesk().words;
  return (
    <fieldset class="paper-part">
      <legend>{words.head}</legend>
      <p class="fine">{words.headHow}</p>
      {packet.consent ? (
        <label class="check">
          <input
            type="checkbox"
            checked={form.consent}
            onChange={(event) => edit({ ...form, consent: event.currentTarget.checked })}
          />
          <span>{takesPart}</span>
        </label>
      ) : null}
      <label class="check">
        <input
          type="checkbox"
          checked={form.cleared}
          onChange={(event) => edit({ ...form, cleared: event.currentTarget.checked })}
        />
        <span>{clearance.clear}</span>
      </label>
    </fieldset>
  );
}

function Length({ planned, form, edit, wrong }: PartProps & { planned: number; wrong: string | null }) {
  const off = /^\d+$/.test(form.lineMm) && Math.abs(Number(form.lineMm) - planned) > planned / 100;
  return (
    <fieldset class="paper-part">
      <legend>{words.length}</legend>
      <p class="fine">{words.lengthHow(planned)}</p>
      <Millimeters label={words.length} value={form.lineMm} write={(lineMm) => edit({ ...form, lineMm }, "length")} />
      {wrong ? <p class="wrong">{wrong}</p> : off ? <p class="fine">{panelPaper.notPlanned(planned)}</p> : null}
    </fieldset>
  );
}

/** A field for whole millimeters. */
export function Millimeters(props: { label: string; value: string; write: (typed: string) => void }) {
  return (
    <label class="millimeters">
      <input
        type="text"
        inputMode="numeric"
        autocomplete="off"
        aria-label={`${props.label}, ${words.mm}`}
        value={props.value}
        onInput={(event) => props.write(event.currentTarget.value)}
      />
      <span aria-hidden="true">{words.mm}</span>
    </label>
  );
}
