import { useEffect, useRef, useState } from "preact/hooks";
import type { BlindPacket } from "../../model/packet.ts";
import type { PaperDifference } from "../../model/paper-agree.ts";
import { type ProblemData, problem } from "../../model/problem.ts";
import { trayLabel } from "../../model/tray.ts";
import { wordings } from "../../words/en/panel.ts";
import { choiceQuestions } from "../../words/en/panel-choice.ts";
import { panelLine } from "../../words/en/panel-line.ts";
import { panelPaper as words } from "../../words/en/panel-paper.ts";
import { asProblem } from "../as-problem.ts";
import { type Tray, trayNamed } from "../flow.ts";
import { Frame } from "../frame.tsx";
import type { AppParts } from "../parts.ts";
import { Lines, Next, Plain } from "../screens/pages.tsx";
import type { Release } from "../tray-hold.ts";
import { type Begun, begunTypings, readPaperDraft, usePaperDraft } from "./paper-draft.ts";
import { PaperForm } from "./paper-form.tsx";
import {
  differenceHere,
  differs,
  freshTypings,
  keepTyping,
  type Person,
  type Typings,
  typingsOf,
} from "./paper-log.ts";
import { PickTray } from "./paper-pick.tsx";
import { askedOf, type Form, type Said } from "./paper-reading.ts";
import { type About, WhoTypes } from "./paper-who.tsx";

type At =
  | { at: "pick" }
  | { at: "who"; about: About }
  | { at: "form"; about: About; person: Person; begun: Form | null }
  | { at: "done"; about: About; person: Person };

type Props = { parts: AppParts; packet: BlindPacket | null; leave: () => void };

/** Where staff type in what stands on paper: the tray, who types, the whole ballot, and what came of it. */
export function PaperPage({ parts, packet, leave }: Props) {
  // the tasting that was there when the page opened: a new one must not change a ballot in somebody's hands
  const [held] = useState(packet);
  if (!held || held.chew) {
    return (
      <Frame title={words.title} right={<Next label={words.back} press={leave} />}>
        <p class="lead-in">{held ? words.noPaper : words.none}</p>
      </Frame>
    );
  }
  return <Paper parts={parts} packet={held} leave={leave} />;
}

function Paper({ parts, packet, leave }: Props & { packet: BlindPacket }) {
  const [at, go] = useState<At>({ at: "pick" });
  const [failed, setFailed] = useState<ProblemData | null>(null);
  const busy = useRef(false);
  const hold = useHeld(parts);
  const draft = usePaperDraft(parts, packet.study, (thrown) => setFailed(thrown === null ? null : asProblem(thrown)));
  /** One thing at a time; what fails is said, and the page stays. */
  const run = async (job: () => Promise<At>): Promise<void> => {
    if (busy.current) return;
    busy.current = true;
    setFailed(null);
    try {
      go(await job());
    } catch (thrown) {
      setFailed(asProblem(thrown));
    } finally {
      busy.current = false;
    }
  };
  const pick = (): void => {
    hold.letGo();
    setFailed(null);
    go({ at: "pick" });
  };
  const open = (typed: string) =>
    run(async () => {
      const tray = trayNamed(typed, packet, wordings);
      await hold.take(packet.study, tray.tray);
      return { at: "who", about: await aboutOf(parts, packet, tray) };
    });
  switch (at.at) {
    case "pick":
      return (
        <PickTray
          {...{ packet, problem: failed, leave }}
          begun={async () => {
            await draft.settled();
            return begunTypings(parts.store, packet.study);
          }}
          open={(typed) => void open(typed)}
        />
      );
    case "who": {
      const { about } = at;
      const type = (person: Person) =>
        run(async () => {
          const begun = await readPaperDraft(parts.store, packet.study, { tray: about.tray.tray, person });
          return { at: "form", about, person, begun };
        });
      const anew = (): void =>
        go({ at: "who", about: { ...about, typings: freshTypings(about.typings), difference: null } });
      return <WhoTypes {...{ about, problem: failed, anew, back: pick }} type={(person) => void type(person)} />;
    }
    case "form": {
      const { about, person, begun } = at;
      const mine: Begun = { tray: about.tray.tray, person };
      const keep = (said: Said) =>
        run(async () => {
          await draft.settled();
          const typings = await keepTyping(parts, packet, about.tray.tray, person, said);
          return { at: "done", person, about: { ...about, ...standingOf(typings, packet, about.tray) } };
        });
      return (
        <PaperForm
          packet={packet}
          tray={about.tray}
          anew={about.typings.count > 0}
          begun={begun}
          problem={failed}
          keep={(said) => void keep(said)}
          nameOf={(question) => questionName(packet, about.tray, question)}
          lay={(form) => draft.save(form, mine)}
          leave={() => {
            draft.drop(mine);
            pick();
          }}
        />
      );
    }
    case "done":
      return <Done {...at} again={() => go({ at: "who", about: at.about })} another={pick} leave={leave} />;
  }
}

/** The tray is held while its ballot is typed in, so that no other window of this tablet opens it. */
function useHeld({ hold }: AppParts) {
  const release = useRef<Release | null>(null);
  const letGo = (): void => {
    release.current?.();
    release.current = null;
  };
  useEffect(() => letGo, []);
  const take = async (study: string, tray: number): Promise<void> => {
    letGo();
    release.current = await hold(study, tray);
    if (!release.current) throw problem("tray/open-in-other-tab", { tray });
  };
  return { take, letGo };
}

const standingOf = (typings: Typings, packet: BlindPacket, tray: Tray) => {
  const difference = differenceHere(typings);
  return { typings, difference: difference && namesOf(difference, packet, tray) };
};

/** What this tablet knows of a tray's ballot on paper, and what the server told of the tray. */
async function aboutOf({ store }: AppParts, packet: BlindPacket, tray: Tray): Promise<About> {
  const [typings, taken, closed] = await Promise.all([
    typingsOf(store, packet.study, tray.tray),
    store.meta("taken"),
    store.meta("closed"),
  ]);
  return {
    ...{ tray, ...standingOf(typings, packet, tray) },
    taken: typings.count === 0 && Array.isArray(taken) && taken.includes(tray.tray),
    closed: closed === packet.study,
  };
}

/** The places that differ, as staff find them on the paper; never what stands there. */
function namesOf(difference: PaperDifference, packet: BlindPacket, tray: Tray): string[] {
  if (!differs(difference)) return [];
  const { head, length, questions } = difference;
  return [
    ...(head ? [words.differences.head] : []),
    ...(length ? [words.differences.length] : []),
    // where a box at the head differs, one of the two has no answers at all
    ...(head ? [] : questions.map((question) => questionName(packet, tray, question))),
  ];
}

function questionName(packet: BlindPacket, tray: Tray, question: number): string {
  const asked = askedOf(packet, tray).find((one) => one.question === question);
  if (asked) return `\u201c${panelLine.mark.ask(asked.attribute, asked.code, packet.swallow).join("")}\u201d`;
  const several = choiceQuestions(packet.wording, packet.properties, packet.ranking).length > 1;
  return several ? words.form.question(question) : words.form.theQuestion;
}

type DoneProps = { about: About; person: Person; again: () => void; another: () => void; leave: () => void };

function Done({ about, person, again, another, leave }: DoneProps) {
  const { tray, difference } = about;
  const alone = person === 1 ? "first" : "alone";
  const outcome = difference === null ? alone : difference.length === 0 ? "agrees" : "differs";
  return (
    <Frame
      title={words.done.title[outcome]}
      left={<Plain label={words.back} press={leave} />}
      right={
        <div class="actions">
          {outcome === "differs" ? (
            <>
              <Plain label={words.done.another} press={another} />
              <Next label={words.done.again} press={again} />
            </>
          ) : (
            <Next label={words.done.another} press={another} />
          )}
        </div>
      }
    >
      <Lines lines={words.done.lines[outcome](trayLabel(tray.tray))} />
      {difference && difference.length > 0 ? (
        <ul class="lines">
          {difference.map((place) => (
            <li key={place}>{place}</li>
          ))}
        </ul>
      ) : null}
    </Frame>
  );
}
