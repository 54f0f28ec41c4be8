import fc from "fast-check";
import { expect, test } from "vitest";
import { writeEvent } from "../../src/log/facts.ts";
import { foldKitchen } from "../../src/log/kitchen.ts";
import { type Fact, kitchenStream } from "../../src/model/event.ts";
import type { Kitchen } from "../../src/model/kitchen.ts";
import { kitchenOf } from "../design/kitchen.ts";

const laptop = "aaaaaaaa-aaaa-4aaa-8aaa-aaaaaaaaaaaa";
const phone = "bbbbbbbb-bbbb-4bbb-8bbb-bbbbbbbbbbbb";
/** Ids in the order they were made in. */
const event = (at: number): string => `0196e000-0000-7000-8000-00000000000${at}`;

function saved(at: number, device: string, base: number | null, merged: number[], kitchen: Kitchen): Fact {
  return writeEvent({
    id: event(at),
    stream: kitchenStream,
    device,
    seq: at,
    prev: null,
    at: `2026-05-03T10:0${at}:00.000Z`,
    kind: "kitchen-saved",
    body: { base: base === null ? null : event(base), merged: merged.map(event), kitchen },
  }).fact;
}
const placed = (place: string): Kitchen => kitchenOf({ place });
const begun = saved(1, laptop, null, [], placed("window bench"));
const onLaptop = saved(2, laptop, 1, [], placed("north bench"));
const onPhone = saved(3, phone, 1, [], placed("tasting room"));
const settled = saved(4, laptop, 3, [2], placed("north bench"));

test("nothing written: no version", () => {
  expect(foldKitchen([])).toEqual({ current: null, others: [] });
});

test("two leads who did not know of each other: the later version counts, the other is given beside it", () => {
  const { current, others } = foldKitchen([begun, onLaptop, onPhone]);
  expect([current?.device, current?.kitchen.place]).toEqual([phone, "tasting room"]);
  expect(others.map(({ device, kitchen }) => [device, kitchen.place])).toEqual([[laptop, "north bench"]]);
});

test("a version that saw both stands alone; one that comes later without knowing of it is shown again", () => {
  const after = foldKitchen([begun, onLaptop, onPhone, settled]);
  expect([after.current?.event, after.others]).toEqual([event(4), []]);
  const late = saved(5, phone, 3, [], placed("cellar"));
  expect(foldKitchen([begun, onLaptop, onPhone, settled, late]).others.map((each) => each.event)).toEqual([event(4)]);
});

test("events delivered in every order and twice over fold to the same state", () => {
  const facts = [begun, onLaptop, onPhone, settled];
  const expected = foldKitchen(facts);
  fc.assert(
    fc.property(fc.shuffledSubarray([...facts, ...facts], { minLength: 8 }), (some) => {
      expect(foldKitchen(some)).toEqual(expected);
    }),
  );
});
