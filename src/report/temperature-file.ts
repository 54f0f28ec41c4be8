import { readTable } from "../archive/csv.ts";
import { dataPackage } from "../archive/data-package.ts";
import { temperaturesCsv } from "../archive/temperatures-csv.ts";
import { reader } from "../words/en/reader.ts";
import { columnText } from "../words/en/reader-files.ts";
import type { Opened } from "./opened-study.ts";

/** Temperatures and times as CSV, by batch; when single trays were served is for a lead. */
export const temperaturesText = ({ record: { temperatures, plan } }: Pick<Opened, "record">, lead: boolean): string =>
  temperaturesCsv(temperatures, plan.products, lead);

/**
 * The dictionary of exactly the file that `temperaturesText` gives.
 *
 * Takes    path: the name under which the CSV file is saved
 */
export function temperaturesDictionary(
  study: Pick<Opened, "record">,
  lead: boolean,
  path: string,
  created: string,
): string {
  const { title } = study.record.plan;
  const { columns } = readTable(temperaturesText(study, lead), path);
  const descriptor = dataPackage({
    title: reader.exports.temperaturesTitle(title),
    description: reader.exports.temperaturesText(title),
    ...{ created, path, columns, describe: columnText, key: [] },
    mayMiss: ["tray", "product"],
  });
  return `${JSON.stringify(descriptor, null, 2)}\n`;
}
