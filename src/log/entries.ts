/**
 * Which of several entries of one thing count. An entry names those that its writer knew (`after`) and that it follows; one
 * that was wrong is voided and leaves what it followed where it was.
 */

type Entry = { id: string; body: { after: readonly string[] } };

/**
 * Entries that no other one follows, be it over voided ones in between.
 *
 * Takes    entries: of one thing, those that were not taken back; voided: those that were, of whatever thing
 * Returns  those that stand, in the order given. More than one: they were written without knowing of each other. Entries that
 *          follow each other in a circle, which no honest device writes, all stand: none of them may hide the others
 */
export function standing<T extends Entry>(entries: readonly T[], voided: readonly Entry[]): T[] {
  const known = new Map([...entries, ...voided].map((entry) => [entry.id, entry]));
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
  for (const entry of entries) follow(entry);
  const last = entries.filter(({ id }) => !followed.has(id));
  return last.length > 0 ? last : [...entries];
}
