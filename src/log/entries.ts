/**
 * Which of several entries of one thing count. An entry names those that its writer knew (`after`) and that it follows; one
 * that was wrong is voided and leaves what it followed where it was.
 */

type Entry = { id: string; body: { after: readonly string[] } };

/**
 * Entries that are not voided and that no other such entry follows, be it over voided ones in between.
 *
 * Takes    entries: of one thing, voided ones among them; voided: says of which ids an entry was taken back
 * Returns  those that stand, in the order given. More than one: they were written without knowing of each other
 */
export function standing<T extends Entry>(entries: readonly T[], voided: ReadonlySet<string>): T[] {
  const known = new Map(entries.map((entry) => [entry.id, entry]));
  const followed = new Set<string>();
  // on the way back through voided entries too: whoever follows one follows what that one followed
  const follow = ({ id, body }: Entry): void => {
    for (const before of body.after) {
      if (before === id || followed.has(before)) continue;
      followed.add(before);
      const entry = known.get(before);
      if (entry) follow(entry);
    }
  };
  const valid = entries.filter(({ id }) => !voided.has(id));
  for (const entry of valid) follow(entry);
  return valid.filter(({ id }) => !followed.has(id));
}
