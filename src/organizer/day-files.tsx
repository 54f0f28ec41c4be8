import { useState } from "preact/hooks";
import type { KitchenDay } from "../log/kitchen-day.ts";
import type { Plan } from "../model/plan.ts";
import { saveText } from "../ui/save.ts";
import { dayFilesWords as words } from "../words/en/organizer-day-files.ts";
import { sentenceOf } from "../words/problem-sentence.ts";
import { type Lead, useLead } from "./app-context.ts";
import { CsvFiles } from "./csv-files.tsx";
import type { Latest, ToWrite } from "./day-table.ts";
import { writeDay } from "./day-write.ts";

/** Far more than the largest kitchen writes down in a day; a larger file is something else. */
const mostBytes = 2_000_000;

type Props = { id: string; day: KitchenDay; plan: Plan; open: boolean };

/** Temperatures and times from a CSV file, and to one. A file with anything wrong in it is not taken at all. */
export function DayFiles({ id, day, plan, open }: Props) {
  const lead = useLead();
  const [wrong, setWrong] = useState("");
  const [said, setSaid] = useState("");
  const take = async (file: File): Promise<void> => {
    setSaid("");
    setWrong("");
    const count = { done: 0, of: 0 };
    try {
      const text = file.size > mostBytes ? null : await file.text().catch(() => null);
      if (text === null) return setWrong(`${words.unreadable} ${words.nothingTaken}`);
      // fetched only now: few kitchens read or write a table
      const { entriesFrom, followedBy, latestByThing } = await import("./day-table.ts");
      const now = lead.now();
      const { list, same, served } = entriesFrom(
        day,
        text,
        file.name,
        (clock) => instantOf(clock, now),
        Date.parse(now),
      );
      count.of = list.length;
      const latest = latestByThing(day);
      for (const each of list) {
        const before = latest.get(each.thing) ?? [];
        const followed = followedBy(before, each.at);
        const fact = await writeEntry(lead, id, each, followed);
        const left = before.filter((one) => !followed.includes(one));
        latest.set(each.thing, [...left, { id: fact.id, at: each.at ?? Date.parse(fact.at) }]);
        count.done += 1;
      }
      setSaid(words.took(count.done, same, served));
    } catch (thrown) {
      setWrong(`${sentenceOf(thrown)} ${count.done === 0 ? words.nothingTaken : words.stopped(count.done, count.of)}`);
    }
  };
  const save = async (): Promise<void> => {
    const { temperaturesFile } = await import("./day-table.ts");
    saveText(words.fileName, "text/csv", temperaturesFile(day, plan));
  };
  return <CsvFiles id="temperature-file" heading={words.heading} {...{ words, open, take, save, said, wrong }} />;
}

/** Writes one entry, after what the log has of the same thing and what the lines above wrote. */
const writeEntry = (lead: Lead, id: string, { entry }: ToWrite, followed: readonly Latest[]) =>
  entry.kind === "serving-read"
    ? writeDay(lead, id, entry.kind, entry.body)
    : write(
        lead,
        id,
        entry,
        followed.map((each) => each.id),
      );

function write(lead: Lead, id: string, entry: Exclude<ToWrite["entry"], { kind: "serving-read" }>, after: string[]) {
  switch (entry.kind) {
    case "core-read":
      return writeDay(lead, id, entry.kind, { ...entry.body, after });
    case "holding-read":
      return writeDay(lead, id, entry.kind, { ...entry.body, after });
    case "heat-left":
      return writeDay(lead, id, entry.kind, { ...entry.body, after });
  }
}

/** "11:32" of today, by the clock of this device, as an instant. */
function instantOf(clock: string, now: string): string {
  const [hours = "0", minutes = "0"] = clock.split(":");
  const day = new Date(now);
  day.setHours(Number(hours), Number(minutes), 0, 0);
  return day.toISOString();
}
