import { useDesk } from "../desk.ts";
import type { Tray } from "../flow.ts";
import { Frame } from "../frame.tsx";

type Props = { tray: Tray; lines: string[]; begin: () => void; stop: () => void };

/** How to taste, as the plan fixed it; the same lines whatever the tray. */
export function Rules({ tray, lines, begin, stop }: Props) {
  const { words } = useDesk();
  return (
    <Frame
      title={words.rules.title}
      tray={tray.tray}
      stop={stop}
      right={
        <button type="button" class="next" onClick={begin}>
          {words.rules.go}
        </button>
      }
    >
      <ul class="lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </Frame>
  );
}
