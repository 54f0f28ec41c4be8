import { outlineOf, readEvent } from "../../src/log/facts.ts";
import { type Attachment, isPanelKind } from "../../src/model/ballot-event.ts";
import type { Fact } from "../../src/model/event.ts";
import type { EventsReply, Role } from "../../src/model/http.ts";
import type { Fetch } from "../../src/report/load.ts";
import { study } from "../archive/scenario.ts";

const incarnation = "99999999-9999-4999-8999-999999999999";
export const device = "44444444-4444-4444-8444-444444444444";

const knownAsFacts = (texts: readonly string[]): Fact[] =>
  texts.flatMap((text) => {
    const read = readEvent(text);
    return read.ok && read.fact ? [read.fact] : [];
  });

type World = { events: string[]; revealed: boolean; role?: Role; remarks?: Attachment[] };
export type Asked = { path: string; body: unknown };

/**
 * Answers as the server's contract says, for one study: full texts after the reveal; before it a reader finds nothing
 * and a lead gets outlines of ballot events.
 */
export function answering({ events, revealed, role = "reader", remarks = [] }: World): {
  fetcher: Fetch;
  asked: Asked[];
} {
  const asked: Asked[] = [];
  const fetcher: Fetch = async (path, init) => {
    asked.push({ path, body: typeof init.body === "string" ? JSON.parse(init.body) : null });
    const [route = ""] = path.split("?");
    if (route === "/api/enroll") return json({ device, token: "token", role, name: "Priya Lindqvist", incarnation });
    if (route === "/api/studies") {
      return json({
        incarnation,
        studies: role === "lead" || revealed ? [{ id: study, head: events.length, revealed }] : [],
      });
    }
    if (role === "reader" && !revealed) return json({ code: "access/not-found", details: {}, errorId: "x" }, 404);
    if (route.endsWith("/remarks")) return json({ remarks });
    return json(eventsFor(events, revealed, Number(new URLSearchParams(path.split("?")[1]).get("after"))));
  };
  return { fetcher, asked };
}

function eventsFor(texts: string[], revealed: boolean, after: number): EventsReply {
  const events = knownAsFacts(texts).map((fact, at) => {
    const hidden = !revealed && isPanelKind(fact.kind);
    return {
      position: at + 1,
      receivedAt: "2026-05-03T14:02:01.000Z",
      chain: fact.hash,
      hash: fact.hash,
      text: hidden ? null : (texts[at] ?? null),
      outline: hidden ? outlineOf(fact) : null,
    };
  });
  return {
    incarnation,
    revealed,
    heads: {},
    head: texts.length,
    quarantined: 0,
    held: 0,
    events: events.filter(({ position }) => position > after),
  };
}

const json = (value: unknown, status = 200): Response =>
  new Response(JSON.stringify(value), { status, headers: { "content-type": "application/json" } });
