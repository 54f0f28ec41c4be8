import type { AskedAttribute } from "../../src/model/attribute.ts";
import type { LineMark } from "../../src/ui/line-mark.ts";
import { packet } from "./tablet.ts";

const attribute = (place: number, name: string, moment: AskedAttribute["moment"]): AskedAttribute => ({
  id: `7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b0${place}`,
  name,
  adjective: name,
  definition: `How ${name} it is in the mouth.`,
  form: { kind: "line" },
  lowAnchor: `not at all ${name}`,
  highAnchor: `extremely ${name}`,
  moment,
});

/** A line of 120 mm; juicy and firm at the first bite, juicy after ten seconds; otherwise as the triangle's packet. */
export const linePacket = {
  ...packet,
  method: "line-scale" as const,
  wording: "line-scale-1",
  line: {
    lengthMm: 120,
    attributes: [
      attribute(1, "juicy", { at: "first-bite" }),
      attribute(2, "firm", { at: "first-bite" }),
      attribute(3, "juicy", { at: "after", seconds: 10 }),
    ],
  },
};

const liked = ["dislike extremely", "", "dislike", "", "neither", "", "like", "", "like extremely"];
const asked = linePacket.line.attributes;
/** Nothing on a line: liking in nine steps and juiciness just right at the first bite, then juiciness in five steps. */
export const stepsPacket = {
  ...linePacket,
  line: {
    lengthMm: null,
    attributes: [
      { ...asked[0], adjective: "", definition: "", form: { kind: "steps" as const, labels: liked, liking: true } },
      {
        ...asked[1],
        adjective: "juiciness",
        form: { kind: "just-right" as const, labels: ["too dry", "just right", "too wet"] },
      },
      {
        ...asked[2],
        form: { kind: "steps" as const, labels: ["not juicy", "", "juicy", "", "very juicy"], liking: false },
      },
    ] as AskedAttribute[],
  },
};

export const markAt = (fraction: number): LineMark => ({
  fraction,
  start: "pointer",
  moves: 0,
  firstMs: 700,
  pointer: "pen",
});
