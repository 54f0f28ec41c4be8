import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { EventStore } from "../../device/event-store.ts";
import { panelTools } from "../../words/en/panel-tools.ts";
import { messageOf } from "../as-problem.ts";
import type { Glass } from "../card-check.ts";
import { Frame } from "../frame.tsx";
import { LineItem } from "./line-item.tsx";
import { browser, type Surroundings, type Verdict } from "./surroundings.ts";

const { check: words } = panelTools;

type Props = {
  store: EventStore;
  glass: () => Glass;
  instant: () => string;
  /** Millimeters of the line of the study at hand; null when it has none. */
  lengthMm: number | null;
  back: () => void;
  around?: Surroundings;
};

type Finding = { verdict: Verdict; text: string };
type Findings = Record<"storage" | "lasting" | "offline" | "installed" | "awake", Finding>;

/** Is this tablet fit for a tasting? Each item says ok, not ok or cannot tell, and what to do. */
export function CheckPage({ store, glass, instant, lengthMm, back, around = browser }: Props) {
  const [found, setFound] = useState<Findings | null>(null);
  const [round, setRound] = useState(0);
  useEffect(() => {
    let current = true;
    setFound(null);
    void look(store, around, instant()).then((findings) => current && setFound(findings));
    return () => {
      current = false;
    };
  }, [store, around, round]);
  const again = (): void => setRound((count) => count + 1);
  const ask = (): void => void around.askToPersist().then(again);
  return (
    <Frame
      title={words.title}
      left={
        <button type="button" onClick={again}>
          {words.again}
        </button>
      }
      right={
        <button type="button" class="next" onClick={back}>
          {words.back}
        </button>
      }
    >
      <p>{words.lead}</p>
      <dl class="checks">
        {(["storage", "lasting", "offline", "installed", "awake"] as const).map((item) => (
          <Item key={item} name={words[item].name} verdict={found?.[item].verdict ?? "looking"}>
            <p>{found?.[item].text}</p>
            {item === "lasting" && found?.lasting.verdict === "bad" ? (
              <button type="button" onClick={ask}>
                {words.lasting.ask}
              </button>
            ) : null}
          </Item>
        ))}
        <LineItem store={store} glass={glass} instant={instant} lengthMm={lengthMm} />
        {Object.values(words.advice).map(({ name, text }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </Frame>
  );
}

type ItemProps = { name: string; verdict: Verdict | "looking"; children: ComponentChildren };

/** One thing that was looked at: its name, the verdict in words, and what that means. */
export function Item({ name, verdict, children }: ItemProps) {
  return (
    <div>
      <dt>
        {name}
        <strong class="verdict">{words.states[verdict]}</strong>
      </dt>
      <dd>{children}</dd>
    </div>
  );
}

async function look(store: EventStore, around: Surroundings, now: string): Promise<Findings> {
  const { storage, lasting, offline, installed, awake } = words;
  const [written, persisted, cached, on] = await Promise.all([
    writesAndReads(store, now),
    around.persisted(),
    around.cached().catch(() => false),
    around.staysAwake().catch(() => false),
  ]);
  const atHome = around.installed();
  return {
    storage: written === null ? { verdict: "ok", text: storage.ok } : { verdict: "bad", text: storage.bad(written) },
    lasting: of(persisted, lasting),
    offline: {
      verdict: cached ? "ok" : "bad",
      text: cached ? offline.ok : around.secure ? offline.bad : offline.insecure,
    },
    installed: { verdict: atHome ? "ok" : "bad", text: atHome ? installed.ok : installed.bad },
    awake: of(on, awake),
  };
}

const of = (answer: boolean | null, says: { ok: string; bad: string; unknown: string }): Finding => {
  const verdict = answer === null ? "unknown" : answer ? "ok" : "bad";
  return { verdict, text: says[verdict] };
};

/** Writes a record as an answer is written, strictly, and reads it back; null when it is there, else why it is not. */
async function writesAndReads(store: EventStore, now: string): Promise<string | null> {
  try {
    await store.setMeta("check", now);
    const back = await store.meta("check");
    return back === now ? null : "something else came back";
  } catch (thrown) {
    return messageOf(thrown);
  }
}
