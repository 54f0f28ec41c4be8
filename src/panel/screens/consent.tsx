import { useDesk } from "../desk.ts";
import { Frame } from "../frame.tsx";
import type { ClearanceProps } from "./clearance.tsx";

type Props = Omit<ClearanceProps, "clear" | "concerned"> & { agree: () => void; decline: () => void };

/** Before anything else: what this is, what is kept of it, and whether somebody takes part. The text is the packet's. */
export function Consent({ tray, packet, problem, agree, decline, otherTray, stop }: Props) {
  const { clearance, consent } = useDesk().words;
  return (
    <Frame
      title={consent.title}
      tray={tray.tray}
      aside={
        <button type="button" class="quiet" onClick={otherTray}>
          {clearance.otherTray}
        </button>
      }
      stop={stop}
      problem={problem}
      left={
        <button type="button" onClick={decline}>
          {consent.decline}
        </button>
      }
      right={
        <button type="button" class="next" onClick={agree}>
          {consent.agree}
        </button>
      }
    >
      <dl class="reading">
        {packet.consent?.lines.map(({ term, text }) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </Frame>
  );
}
