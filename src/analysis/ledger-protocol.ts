import type { Ledger, Weighing } from "../model/ledger.ts";
import type { ProtocolWarning } from "../model/result-ledger.ts";
import { massOf } from "./ledger-check.ts";

/** How far the means of two products may lie apart before it is said: our own choice, from no source. */
const farApart = { minutes: 2, celsius: 5 } as const;
type Of = keyof typeof farApart;

/**
 * Steps at which batches were not weighed alike: some say when after the heat and at what core temperature and others do
 * not, or the products' means lie more than 2 minutes or 5 degrees Celsius apart. One warning a step at most.
 */
export function protocolWarnings(ledger: Ledger): ProtocolWarning[] {
  return ledger.steps.flatMap((step, at): ProtocolWarning[] => {
    const taken = ledger.batches.flatMap(({ product, weighings }) => {
      const weighing = weighings[at];
      return weighing && massOf(weighing) !== null ? [{ product, weighing }] : [];
    });
    const partly = (["minutes", "celsius"] as const).filter((of) => {
      const said = taken.filter(({ weighing }) => weighing[of] !== "").length;
      return said > 0 && said < taken.length;
    });
    const [minutes, celsius] = [apartOf(taken, "minutes"), apartOf(taken, "celsius")];
    const alike = partly.length === 0 && minutes === null && celsius === null;
    return alike ? [] : [{ what: "protocol-differs", step, partly, minutes, celsius }];
  });
}

/** Least and greatest mean of a product; null where they are near enough, or fewer than two products say it. */
function apartOf(
  taken: readonly { product: number; weighing: Weighing }[],
  of: Of,
): { least: number; most: number } | null {
  const said = taken.filter(({ weighing }) => weighing[of] !== "");
  const means = [...new Set(said.map(({ product }) => product))].map((product) => {
    const values = said.filter((each) => each.product === product).map(({ weighing }) => Number(weighing[of]));
    return values.reduce((total, value) => total + value, 0) / values.length;
  });
  const [least, most] = [Math.min(...means), Math.max(...means)];
  // a hair more: means of decimals that lie just so far apart are not beyond it
  return means.length > 1 && most - least > farApart[of] + 1e-9 ? { least, most } : null;
}
