/**
 * Samples put in order by touching them: codes, least first. While some have no place yet the order waits as `held`;
 * once all have one it is the answer.
 */
export type Ordering = { picked: string | null; held: string | null };

/** The codes that have a place, least first. */
export const orderOf = ({ picked, held }: Ordering): string[] => (picked ?? held ?? "").split(" ").filter(Boolean);

/** A code was touched: it takes the next place; one that has a place leaves it, and those after it move up. */
export const placed = (order: readonly string[], code: string): string[] =>
  order.includes(code) ? order.filter((one) => one !== code) : [...order, code];

/** An order as it is laid down. Takes  codes: of the tray; order: some or all of them, each once */
export function laidDown(codes: readonly string[], order: readonly string[]): Ordering {
  const text = order.join(" ");
  if (order.length === codes.length) return { picked: text, held: null };
  return { picked: null, held: text || null };
}
