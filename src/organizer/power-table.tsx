import { planWords } from "../words/en/organizer-plan.ts";

type Props = {
  chosen: number;
  points: readonly { people: number; power: number }[];
  /** Heads of the columns, and what stands in the last. */
  finds: string;
  width: string;
  widthOf: (people: number) => string;
};

/** The curve of a power as numbers: every sixth count of people, and the chosen one with its neighbors. */
export function PowerTable({ chosen, points, finds, width, widthOf }: Props) {
  const rows = points.filter(({ people }) => people % 6 === 0 || Math.abs(people - chosen) <= 1);
  const { people: axis } = planWords;
  return (
    <table class="widths">
      <thead>
        <tr>
          <th scope="col" class="number">
            {axis.columnPeople}
          </th>
          <th scope="col" class="number">
            {finds}
          </th>
          <th scope="col" class="number">
            {width}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ people, power }) => (
          <tr key={people} class={people === chosen ? "mine" : undefined}>
            <th scope="row" class="number">
              {people === chosen ? `${axis.chosen}: ` : ""}
              {people}
            </th>
            <td class="number">{axis.ofHundred(power)}</td>
            <td class="number">{widthOf(people)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
