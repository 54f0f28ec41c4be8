import { isLateStep } from "./flow.ts";
import { Clearance, Consent } from "./screens/clearance.tsx";
import { Differ, Stopped, Thanks } from "./screens/pages.tsx";
import { Remark } from "./screens/remark.tsx";
import { Rules } from "./screens/rules.tsx";
import type { Session } from "./session.ts";
import type { SessionState } from "./session-base.ts";

/** The screen of a step with a tray in hand. At rest there is none: null. */
export function TrayScreen({ session, state }: { session: Session; state: SessionState }) {
  const { step, packet, problem } = state;
  const stop = (): void => void session.stop();
  const rest = (): void => void session.rest();
  if (step.at === "rest" || !packet) return null;
  const { late, choice } = session;
  if (isLateStep(step)) {
    return late ? <late.Screen step={step} problem={problem} differ={() => session.differ()} stop={stop} /> : null;
  }
  switch (step.at) {
    case "consent":
    case "clearance": {
      const Page = step.at === "consent" ? Consent : Clearance;
      const acts = {
        clear: () => void session.clear(),
        refuse: () => void session.notCleared(),
        otherTray: rest,
        stop,
      };
      return <Page tray={step.tray} packet={packet} problem={problem} {...acts} />;
    }
    case "rules": {
      const lines = late?.rules ?? choice?.rulesOf(packet) ?? [];
      return <Rules tray={step.tray} lines={lines} begin={() => session.begin()} stop={stop} />;
    }
    case "differ":
      return (
        <Differ tray={step.tray} reference={packet.reference} back={() => session.back()} other={rest} stop={stop} />
      );
    case "tasting":
    case "question":
    case "cannot":
      return choice ? <choice.ChoiceScreen step={step} packet={packet} problem={problem} acts={session} /> : null;
    case "remark": {
      const acts = { write: (text: string) => session.remark(text), finish: () => void session.finish(), stop };
      return <Remark step={step} problem={problem} {...acts} />;
    }
    case "thanks":
      return <Thanks next={rest} />;
    case "stopped":
      return <Stopped reason={step.reason} problem={problem} again={() => void session.keepStop()} next={rest} />;
  }
}
