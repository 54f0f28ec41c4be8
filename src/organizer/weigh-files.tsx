import { useState } from "preact/hooks";
import { saveText } from "../ui/save.ts";
import { weighWords as words } from "../words/en/organizer-weigh.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { appendEvent, useLead } from "./app-context.ts";
import { CsvFiles } from "./csv-files.tsx";
import type { WeighPlan, WeighRow } from "./weigh.ts";

/** Far more than the largest study weighs; a larger file is something else. */
const mostBytes = 2_000_000;

type Props = { id: string; rows: readonly WeighRow[]; plan: WeighPlan; open: boolean };

/** Masses from a CSV file, and to one. A file with anything wrong in it is not taken at all. */
export function WeighFiles({ id, rows, plan, open }: Props) {
  const lead = useLead();
  const [wrong, setWrong] = useState("");
  const [said, setSaid] = useState("");
  const take = async (file: File): Promise<void> => {
    setSaid("");
    setWrong("");
    let done = 0;
    let of = 0;
    try {
      const text = file.size > mostBytes ? null : await file.text().catch(() => null);
      if (text === null) return setWrong(`${words.unreadable} ${words.nothingTaken}`);
      // fetched only now: few who weigh read or write a table
      const { entriesFrom } = await import("./weigh-table.ts");
      const { bodies, same } = entriesFrom(rows, plan, text, file.name);
      of = bodies.length;
      for (const body of bodies) {
        await appendEvent(lead, { stream: { kind: "study", id }, kind: "portion-weighed", body });
        done += 1;
      }
      setSaid(words.took(done, same));
    } catch (thrown) {
      setWrong(`${sentenceOf(thrown)} ${done === 0 ? words.nothingTaken : words.stopped(done, of)}`);
    }
  };
  const save = async (): Promise<void> => {
    const { weighingsFile } = await import("./weigh-table.ts");
    saveText(words.fileName, "text/csv", weighingsFile(rows));
  };
  return <CsvFiles id="weigh-file" heading={words.files} {...{ words, open, take, save, said, wrong }} />;
}
