import { describe } from "../analysis/describe.ts";
import { reader } from "../words/en/reader.ts";
import { report } from "../words/en/report.ts";
import type { Opened } from "./opened-study.ts";

/** What the verdict would be without trays served outside of their window: beside the result, for who wants to know. */
export function WithoutTrays({ without }: { without: Opened["without"] }) {
  if (!without) return null;
  const { verdict, size } = describe(without.result, report);
  const words = reader.temperatures.without;
  return (
    <section>
      <h2>{words.heading}</h2>
      <p>{words.text(without.trays, verdict, size)}</p>
    </section>
  );
}
