const steps: Record<string, number> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

/** Arrow keys go from sample to sample, around; Tab does, too. */
export function roam(event: KeyboardEvent): void {
  const by = steps[event.key];
  if (by === undefined || !(event.currentTarget instanceof HTMLElement)) return;
  const all = [...event.currentTarget.querySelectorAll("button")];
  const at = all.findIndex((one) => one.matches(":focus"));
  if (at < 0) return;
  event.preventDefault();
  all[(at + by + all.length) % all.length]?.focus();
}

/** A code as it is read out: digit by digit. */
export const spoken = (code: string): string => [...code].join(" ");
