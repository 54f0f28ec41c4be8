type Saved = { id: string; body: { base: string | null; merged?: readonly string[] } };

/**
 * The versions of a document that no other version was written over, in the order given. More than one: it was
 * changed on several devices that did not know of each other.
 */
export function leavesOf<T extends Saved>(saves: readonly T[]): T[] {
  const replaced = new Set(saves.flatMap(({ body }) => [body.base, ...(body.merged ?? [])]));
  return saves.filter(({ id }) => !replaced.has(id));
}
