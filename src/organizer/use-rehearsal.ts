import { useEffect, useRef, useState } from "preact/hooks";
import type { RehearsalAsked } from "../model/rehearsal.ts";
import { read } from "../model/schema.ts";
import { rehearsalWords } from "../words/en/organizer-rehearsal.ts";
import { type RehearsalNews, rehearsalNews } from "./rehearsal-news.ts";

/** Where a rehearsal stands. `all`: how many studies it plays, of both worlds together. */
export type RehearsalState =
  | { at: "idle" | "stopped" }
  | { at: "playing"; done: number; all: number }
  | (Extract<RehearsalNews, { kind: "done" }> & { at: "done" })
  | { at: "failed"; sentence: string };

/** The part of a worker that a rehearsal needs. */
export type Player = Pick<Worker, "postMessage" | "terminate" | "onmessage" | "onerror">;

const startPlayer = (): Player =>
  new Worker(new URL("./rehearsal-worker.ts", import.meta.url), { type: "module", name: "rehearsal" });

/** Plays rehearsals one at a time; leaving the page ends the one that goes on. */
export function useRehearsal(start: () => Player = startPlayer) {
  const [state, setState] = useState<RehearsalState>({ at: "idle" });
  const player = useRef<Player | null>(null);
  const end = (): void => {
    player.current?.terminate();
    player.current = null;
  };
  useEffect(() => end, []);
  const play = (asked: RehearsalAsked): void => {
    end();
    const all = 2 * asked.plays;
    setState({ at: "playing", done: 0, all });
    try {
      const started = start();
      player.current = started;
      started.onmessage = ({ data }: MessageEvent<unknown>) => {
        const news = read(rehearsalNews, data);
        setState(stateAfter(news, all));
        if (news.kind !== "progress") end();
      };
      started.onerror = () => {
        end();
        setState({ at: "failed", sentence: rehearsalWords.failed });
      };
      started.postMessage(asked);
    } catch {
      end();
      setState({ at: "failed", sentence: rehearsalWords.failed });
    }
  };
  const stop = (): void => {
    end();
    setState({ at: "stopped" });
  };
  return { state, play, stop };
}

function stateAfter(news: RehearsalNews, all: number): RehearsalState {
  switch (news.kind) {
    case "progress":
      return { at: "playing", done: news.done, all };
    case "done":
      return { at: "done", ...news };
    case "failed":
      return { at: "failed", sentence: news.sentence };
  }
}
