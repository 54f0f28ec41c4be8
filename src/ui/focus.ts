/**
 * Gives the focus to the control or heading with this id once the screen was drawn anew: what had it may be gone, and
 * what is to have it may only be coming. Nothing happens when there is no such element.
 *
 * Takes    block: where on the screen it is to stand; it is not scrolled beyond need when left out
 */
export function focusSoon(id: string, block: ScrollLogicalPosition = "nearest"): void {
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      const element = document.getElementById(id);
      element?.focus({ preventScroll: true });
      element?.scrollIntoView({ block });
    }),
  );
}
