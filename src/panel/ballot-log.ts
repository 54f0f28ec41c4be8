import type { EventStore } from "../device/event-store.ts";
import type { PanelKind } from "../model/ballot-event.ts";
import { sha256 } from "../model/canonical.ts";
import type { Body } from "../model/event.ts";
import { problem } from "../model/problem.ts";
import { draftName } from "./draft.ts";
import type { StopReason } from "./flow.ts";

type Answer = Omit<Body<"answer-kept">, "salt">;
type Mark = Omit<Body<"mark-kept">, "salt">;
type Chewed = Omit<Body<"portion-chewed">, "salt">;

/**
 * Writes what happens to a tray into this tablet's log. Each call resolves once the event is on disk, and throws the
 * Problem when it is not. A mark makes each thing happen once, however often a button is pressed.
 */
export class BallotLog {
  #store: EventStore;
  #instant: () => string;
  #salt: () => string;

  /** `salt`: 64 random hex digits, drawn anew for each answer and each remark. */
  constructor(store: EventStore, instant: () => string, salt: () => string) {
    this.#store = store;
    this.#instant = instant;
    this.#salt = salt;
  }

  /** `consent`: the version of the text that was agreed to, where there was one. */
  async opened(study: string, tray: number, clearance: string, consent?: string): Promise<void> {
    const mark = `opened ${study} ${tray} ${clearance}`;
    const body = { tray, clearance, ...(consent && { consent }) };
    await this.#append(study, { kind: "tray-opened", body, mark });
  }

  async answered(study: string, answer: Answer): Promise<void> {
    const body = { ...answer, salt: this.#salt() };
    const mark = `answer ${study} ${answer.tray} ${answer.question}`;
    await this.#append(study, { kind: "answer-kept", body, mark, draft: draftName(study, answer.tray) });
  }

  /** `time`: the how-manieth keeping of this question it is, from 1; the last one counts. */
  async marked(study: string, mark: Mark, time: number): Promise<void> {
    const body = { ...mark, salt: this.#salt() };
    const name = `mark ${study} ${mark.tray} ${mark.question} ${time}`;
    await this.#append(study, { kind: "mark-kept", body, mark: name, draft: draftName(study, mark.tray) });
  }

  async chewed(study: string, portion: Chewed): Promise<void> {
    const body = { ...portion, salt: this.#salt() };
    const mark = `portion ${study} ${portion.tray} ${portion.question}`;
    await this.#append(study, { kind: "portion-chewed", body, mark, draft: draftName(study, portion.tray) });
  }

  /** The event holds a salted hash; the text goes beside it, where it can be erased. */
  async remarked(study: string, tray: number, text: string): Promise<void> {
    const salt = this.#salt();
    const body = { tray, remark: sha256(`${salt}\n${text}`) };
    const mark = `remark ${study} ${tray}`;
    const draft = draftName(study, tray);
    await this.#append(study, { kind: "remark-kept", body, mark, draft, attachment: { salt, text } });
  }

  async finished(study: string, tray: number): Promise<void> {
    const mark = `finished ${study} ${tray}`;
    await this.#append(study, { kind: "tray-finished", body: { tray }, mark, draft: draftName(study, tray) });
  }

  async stopped(study: string, tray: number, reason: StopReason): Promise<void> {
    const mark = `stopped ${study} ${tray}`;
    await this.#append(study, { kind: "tray-stopped", body: { tray, reason }, mark, draft: draftName(study, tray) });
  }

  async #append(
    study: string,
    what: {
      [K in Kinds]: {
        kind: K;
        body: Body<K>;
        mark: string;
        draft?: string;
        attachment?: { salt: string; text: string };
      };
    }[Kinds],
  ): Promise<void> {
    const who = await this.#store.identity();
    if (!who) throw problem("device/not-saved", { reason: "this tablet is not enrolled" });
    await this.#store.append(who.device, this.#instant(), { stream: { kind: "study", id: study }, ...what });
  }
}

type Kinds = PanelKind;
