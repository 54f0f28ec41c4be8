/**
 * Names that tell things apart in a file: one that is empty, reserved there or used twice gets its number.
 *
 * Takes    names: in the order of the plan; reserved: words that mean something else in the file, in lower case
 * Example  distinctNames(["current", "None", "current"], ["none"]) // ["current (1)", "None (2)", "current (3)"]
 */
export function distinctNames(names: readonly string[], reserved: readonly string[] = []): string[] {
  const plain = names.map((name) => name.trim());
  return plain.map((name, at) => {
    const clear =
      name !== "" && !reserved.includes(name.toLowerCase()) && plain.filter((one) => one === name).length === 1;
    return clear ? name : `${name} (${at + 1})`.trim();
  });
}
