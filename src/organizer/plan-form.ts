/** As many steps as a scale may have. */
export const mostSteps = 11;

/** One more step, without words, before the last one. */
export const withStep = (labels: readonly string[]): string[] => [...labels.slice(0, -1), "", ...labels.slice(-1)];

/** One step less: the last one without words, or else the last before the high end. */
export function withoutStep(labels: readonly string[]): string[] {
  const empty = labels.findLastIndex((label, at) => at > 0 && at < labels.length - 1 && label.trim() === "");
  return labels.toSpliced(empty < 0 ? labels.length - 2 : empty, 1);
}
