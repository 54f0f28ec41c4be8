import { piecesOf } from "../design/raw-draw.ts";
import type { Body } from "../model/event.ts";
import type { Cook, DrawnRaw } from "../model/raw.ts";
import { kitchenPapers } from "../words/en/organizer-kitchen-papers.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { rawWords } from "../words/en/raw.ts";
import { FlowSheet } from "./paper-parts.tsx";
import type { PaperSize } from "./use-print.ts";

const words = rawWords.paper;
type Lock = Body<"study-locked">;

/** Who got which process: for each numbered piece what it becomes, and in which order batches are cooked. It knows no code. */
export function ProcessDraw({ lock, size }: { lock: Lock; size: PaperSize }) {
  const { raw, waves } = lock.plan;
  const { draw } = lock;
  if (raw.drawn !== "drawn" || !draw) return null;
  return (
    <FlowSheet lock={lock} name={paperNames["process-draw"]} size={size} kitchen={kitchenPapers.kitchenOnly}>
      <p>{words.how(piecesOf(lock.plan, raw), raw)}</p>
      {waves.map((wave, at) => {
        const cooks = draw.cooks.filter((cook) => cook.wave === at + 1);
        return cooks.length === 0 ? null : (
          <section key={wave.id} class="sheet-part">
            <h2>{paperWords.wave(at + 1, wave.starts)}</h2>
            <ByPiece lock={lock} raw={raw} cooks={cooks} />
            <Cooking lock={lock} raw={raw} cooks={cooks} />
          </section>
        );
      })}
      <p class="small-print">{words.seed(draw.seed)}</p>
    </FlowSheet>
  );
}

type Props = { lock: Lock; raw: DrawnRaw; cooks: readonly Cook[] };

const nameOf = ({ plan }: Lock, product: string): string => plan.products.find(({ id }) => id === product)?.name ?? "";

/** "3", or "3 b" for a part. */
const pieceText = ({ piece, part }: Cook["pieces"][number]): string =>
  part === "" ? String(piece) : `${piece} ${part}`;

function ByPiece({ lock, raw, cooks }: Props) {
  const rows = cooks
    .flatMap((cook) => cook.pieces.map((piece) => ({ cook, ...piece })))
    .toSorted((one, other) => one.piece - other.piece || one.part.localeCompare(other.part));
  return (
    <table class="prep draw-table">
      <caption>{words.byPiece(raw.unit)}</caption>
      <thead>
        <tr>
          <th scope="col" class="draw-first">
            {words.columns.piece(raw.unit)}
          </th>
          <th scope="col">{words.columns.product}</th>
          <th scope="col">{words.columns.batch}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ cook, ...piece }) => (
          <tr key={pieceText(piece)}>
            <th scope="row">{pieceText(piece)}</th>
            <td>{nameOf(lock, cook.product)}</td>
            <td>{cook.batch}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Cooking({ lock, raw, cooks }: Props) {
  const { columns } = words;
  return (
    <table class="prep draw-table">
      <caption>{words.cooking}</caption>
      <thead>
        <tr>
          <th scope="col" class="draw-first">
            {columns.order}
          </th>
          <th scope="col">{columns.product}</th>
          <th scope="col">{columns.batch}</th>
          <th scope="col">{columns.contents(raw.unit)}</th>
          <th scope="col" class="draw-done">
            {columns.done}
          </th>
        </tr>
      </thead>
      <tbody>
        {cooks.map(({ product, batch, pieces }, at) => (
          <tr key={`${product} ${batch}`}>
            <th scope="row">{at + 1}</th>
            <td>{nameOf(lock, product)}</td>
            <td>{batch}</td>
            <td>{pieces.map(pieceText).join(", ")}</td>
            <td>
              <span class="box wide-box narrow-box" />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
