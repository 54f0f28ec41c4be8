import type { ScaleForm } from "../../src/model/attribute.ts";
import type { Body, Fact } from "../../src/model/event.ts";
import { lead, study, Writer } from "./example.ts";

/** As `Writer`, for a line scale: two trays of two samples, juiciness at the first bite and after ten seconds. */
export const firstBite = "55555555-5555-4555-8555-555555555551";
export const later = "55555555-5555-4555-8555-555555555552";

const attribute = (
  id: string,
  moment: { at: "first-bite" } | { at: "after"; seconds: number },
  form: ScaleForm = { kind: "line" },
) => ({
  id,
  name: "Juiciness",
  adjective: "juicy",
  definition: "Juice felt while chewing.",
  form,
  lowAnchor: "not at all juicy",
  highAnchor: "extremely juicy",
  moment,
});
const scaleOf = (form: ScaleForm) => ({
  lengthMm: 120,
  attributes: [attribute(firstBite, { at: "first-bite" }), attribute(later, { at: "after", seconds: 10 }, form)],
});
const codes = [
  ["482", "715"],
  ["264", "518"],
] as const;

export class LineWriter extends Writer {
  /** `form`: of the question after ten seconds. */
  lockLine(form: ScaleForm = { kind: "line" }): Fact {
    const scale = scaleOf(form);
    const lock = new Writer().lock();
    if (lock.kind !== "study-locked" || lock.outline) throw new Error("no lock");
    const { plan, packet } = lock.body;
    return this.write(lead, "study-locked", {
      ...lock.body,
      plan: {
        ...plan,
        method: "line-scale",
        people: 2,
        spares: 0,
        scale: { ...scale, attributes: scale.attributes.map((asked) => ({ ...asked, further: [], inFamily: false })) },
      },
      packet: {
        ...packet,
        study,
        method: "line-scale",
        wording: "line-scale-1",
        line: scale,
        trays: codes.map((list, index) => ({ tray: index + 1, wave: 1, spare: false, codes: [...list] })),
      },
      seats: [1, 2].map((seat) => ({ seat, trays: [seat] })),
    });
  }

  /** A mark of a question, 1 to 4, at a fraction; null: could not judge. */
  mark(
    device: string,
    tray: number,
    question: number,
    fraction: number | null,
    changes: Partial<Body<"mark-kept">> = {},
  ): Fact {
    return this.write(device, "mark-kept", {
      tray,
      question,
      code: codes[tray - 1]?.[question > 2 ? 1 : 0] ?? "",
      attribute: question % 2 === 1 ? firstBite : later,
      mark: fraction === null ? null : { fraction, start: "pointer", moves: 0, firstMs: 800 },
      why: fraction === null ? "not-perceived" : null,
      line: { lengthPx: 624, lengthMm: 120 },
      chewedSeconds: question % 2 === 1 ? 0.4 : 10.2,
      hidden: false,
      elapsedMs: 2000,
      screen: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
      salt: "5a".repeat(32),
      ...changes,
    });
  }

  revealLine(heads: Record<string, number>): Fact {
    const reveal = new Writer().reveal(heads);
    if (reveal.kind !== "key-revealed" || reveal.outline) throw new Error("no reveal");
    const products = reveal.body.opened.key.trays[0]?.samples.map(({ product }) => product) ?? [];
    const trays = codes.map((list, at) => ({
      tray: at + 1,
      order: at === 0 ? "AB" : "BA",
      samples: list.map((code, place) => ({
        code,
        product: products[(at + place) % 2 === 0 ? 0 : 2] ?? "",
        batch: "1",
      })),
    }));
    const { opened } = reveal.body;
    return this.write(lead, "key-revealed", { heads, opened: { ...opened, key: { ...opened.key, trays } } });
  }
}
