import { render } from "preact";
import { useState } from "preact/hooks";
import "../../src/ui/tokens.css";
import "../../src/panel/panel.css";
import type { LineMark } from "../../src/ui/line-mark.ts";
import { LineScale } from "../../src/ui/line-scale.tsx";
import { panelLine } from "../../src/words/en/panel-line.ts";

/** The line on a page of its own, as long as the address says; the test reads the marks off the window. */
const marks: (LineMark | null)[] = [];
Object.assign(window, { marks });
const lengthPx = Number(new URLSearchParams(location.search).get("length"));

function Page() {
  const [mark, setMark] = useState<LineMark | null>(null);
  const onMark = (next: LineMark | null): void => {
    marks.push(next);
    setMark(next);
  };
  return (
    <div class="page">
      <main>
        <h1 id="title">How juicy is sample 482, at the first bite?</h1>
        <LineScale
          lengthPx={lengthPx}
          low="not at all juicy"
          high="extremely juicy"
          labelledBy="title"
          mark={mark}
          onMark={onMark}
          elapsed={() => performance.now()}
          after={(ms, run) => {
            const timer = setTimeout(run, ms);
            return () => clearTimeout(timer);
          }}
          words={panelLine.line}
        />
      </main>
    </div>
  );
}
render(<Page />, document.body);
