import type { ComponentChildren } from "preact";
import type { BlindPacket } from "../model/packet.ts";
import type { Plan } from "../model/plan.ts";
import { paperWords } from "../words/en/organizer-papers.ts";
import type { PaperSize } from "./use-print.ts";

/** A bar of exactly 100 mm: printers scale, and a scaled label misses its sheet. */
export function MeasureBar() {
  return (
    <span class="measure">
      <span class="bar-100" aria-hidden="true" />
      {paperWords.bar}
    </span>
  );
}

type SheetProps = {
  /** Without a packet: not locked yet, so that there is no seal to show. */
  lock: { plan: Pick<Plan, "title">; packet: Pick<BlindPacket, "commitment"> | null };
  name: string;
  size: PaperSize;
  /** The black bar of papers that show the key. */
  black?: string;
  /** The framed bar of papers that name products, though no code. */
  kitchen?: string;
  children: ComponentChildren;
};

/** A paper that flows over as many pages as it needs; its head repeats on each. */
export function FlowSheet({ lock, name, size, black, kitchen, children }: SheetProps) {
  return (
    <article class={`paper flow ${size}`}>
      <table class="frame">
        <thead>
          <tr>
            <td>
              {black ? <p class="black-bar">{black}</p> : null}
              {kitchen ? <p class="kitchen-bar">{kitchen}</p> : null}
              <p class="sheet-head">
                <span>
                  <strong>{name}</strong>
                  {/* a title tends to name the treatment: only papers that stay in the kitchen carry it */}
                  {black || kitchen ? <br /> : null}
                  {black || kitchen ? lock.plan.title : null}
                </span>
                <span class="seal">{lock.packet ? paperWords.seal(lock.packet.commitment) : paperWords.notLocked}</span>
              </p>
              <MeasureBar />
            </td>
          </tr>
        </thead>
        <tbody>
          <tr>
            <td>{children}</td>
          </tr>
        </tbody>
      </table>
    </article>
  );
}
