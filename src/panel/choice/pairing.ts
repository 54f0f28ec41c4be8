/**
 * Four samples that fall into two pairs. What is kept is the partner: the code that goes with the tray's first one. It
 * says all of it, and naming the other pair is the same answer.
 */
export type Pairing = { picked: string | null; held: string | null };
export type Pair = readonly [string, string];

/** The two pairs that a partner of the first code makes, each in serving order, that of the first code first. */
export function pairsOf(codes: readonly string[], partner: string): [Pair, Pair] {
  const [first = "", ...others] = codes;
  const [third = "", fourth = ""] = others.filter((code) => code !== partner);
  return [
    [first, partner],
    [third, fourth],
  ];
}

/** The code that a code goes with; undefined while there are no pairs. */
export const partnerOf = (codes: readonly string[], { picked }: Pairing, code: string): string | undefined =>
  picked === null
    ? undefined
    : pairsOf(codes, picked)
        .find((pair) => pair.includes(code))
        ?.find((other) => other !== code);

/**
 * A code was touched. The first one waits for its partner, the second one is it; the same one again lets go.
 * Where pairs stand already, a touch takes them apart: that code looks for another partner.
 */
export function touched(codes: readonly string[], { held }: Pairing, code: string): Pairing {
  if (held === code) return { picked: null, held: null };
  if (held === null) return { picked: null, held: code };
  const [first = "", ...others] = codes;
  const pair = [held, code];
  const partner = pair.includes(first)
    ? pair.find((one) => one !== first)
    : others.find((other) => !pair.includes(other));
  return { picked: partner ?? null, held: null };
}

/** Other pairs of the same four: each of the three ways comes up in turn. */
export function swapped(codes: readonly string[], { picked }: Pairing): Pairing {
  const others = codes.slice(1);
  const at = picked === null ? -1 : others.indexOf(picked);
  return at < 0 ? { picked: null, held: null } : { picked: others[(at + 1) % others.length] ?? null, held: null };
}
