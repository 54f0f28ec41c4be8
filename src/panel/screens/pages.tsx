import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { BlindPacket } from "../../model/packet.ts";
import type { ProblemData } from "../../model/problem.ts";
import { deviceProblemSentence } from "../../words/device-problem-sentence.ts";
import { messageOf } from "../as-problem.ts";
import { useDesk } from "../desk.ts";
import type { StopReason, Tray } from "../flow.ts";
import { Frame } from "../frame.tsx";
import type { CallSomebody } from "../help/call-somebody.tsx";

type Action = { label: string; press: () => void };

export const Lines = ({ lines }: { lines: string[] }) => (
  <div class="reading">
    {lines.map((line) => (
      <p key={line}>{line}</p>
    ))}
  </div>
);

export const Plain = ({ label, press }: Action) => (
  <button type="button" onClick={press}>
    {label}
  </button>
);

export const Next = ({ label, press }: Action) => (
  <button type="button" class="next" onClick={press}>
    {label}
  </button>
);

type DifferProps = {
  tray: Tray;
  reference: BlindPacket["reference"];
  back: () => void;
  other: () => void;
  stop: () => void;
};

/** The codes on the tray are others: help is asked for, and nothing is lost. */
export function Differ({ tray, reference, back, other, stop }: DifferProps) {
  const { words } = useDesk();
  const { lines, withReference } = words.differ;
  const [Call, setCall] = useState<typeof CallSomebody | null>(null);
  // with the first screens it would be too heavy
  useEffect(() => void import("../help/call-somebody.tsx").then((room) => setCall(() => room.CallSomebody)), []);
  return (
    <Frame
      title={words.differ.title}
      tray={tray.tray}
      stop={stop}
      left={<Plain label={words.differ.other} press={other} />}
      right={<Next label={words.differ.back} press={back} />}
    >
      <Lines lines={reference ? [...lines, withReference(reference)] : lines} />
      {Call ? <Call tray={tray.tray} /> : null}
    </Frame>
  );
}

export function Thanks({ next }: { next: () => void }) {
  const { words } = useDesk();
  return (
    <Frame title={words.thanks.title} right={<Next label={words.nextPerson} press={next} />}>
      <Lines lines={words.thanks.lines} />
    </Frame>
  );
}

type StoppedProps = { reason: StopReason; problem: ProblemData | null; again: () => void; next: () => void };

/** A tray that ended without an answer, or was stopped. Calm, and nothing is asked. */
export function Stopped({ reason, problem, again, next }: StoppedProps) {
  const { words } = useDesk();
  const { title, lines } = words.stopped[reason];
  return (
    <Frame
      title={title}
      problem={problem}
      left={problem ? <Plain label={words.tryAgain} press={again} /> : null}
      right={<Next label={words.nextPerson} press={next} />}
    >
      <Lines lines={lines} />
    </Frame>
  );
}

/** No tasting is assigned to this tablet yet. */
export function NoStudy({ notices, tools }: { notices: ComponentChildren; tools: ComponentChildren }) {
  const { words } = useDesk();
  return (
    <Frame title={words.rest.noStudyTitle} left={tools}>
      <p class="lead-in">{words.rest.noStudy}</p>
      {notices}
    </Frame>
  );
}

/** Nothing can go on: the sentence of the problem, full screen. */
export function Failed({ problem, again }: { problem: ProblemData; again: () => void }) {
  const { words } = useDesk();
  return (
    <Frame title={words.failed.title} problem={problem} right={<Next label={words.tryAgain} press={again} />}>
      <p>{words.failed.kept}</p>
    </Frame>
  );
}

/** Something in the app itself broke while drawing. */
export function Broken({ thrown, again }: { thrown: unknown; again: () => void }) {
  const { words } = useDesk();
  const known = thrown instanceof Error && "problem" in thrown ? (thrown.problem as ProblemData) : null;
  return (
    <Frame title={words.failed.title} right={<Next label={words.failed.again} press={again} />}>
      <p class="lead-in">{known ? deviceProblemSentence(known) : words.failed.blame(messageOf(thrown))}</p>
      <p>{words.failed.kept}</p>
    </Frame>
  );
}
