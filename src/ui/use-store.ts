import { useEffect, useState } from "preact/hooks";

/**
 * The outcome of an asynchronous reading, read again after every change that `watch` reports.
 * Undefined until the first reading is there; a reading that fails is passed on by throwing while rendering.
 */
export function useReading<T>(
  read: () => Promise<T>,
  watch: (changed: () => void) => () => void,
  on: unknown[],
): T | undefined {
  const [state, setState] = useState<{ value?: T; error?: unknown }>({});
  useEffect(() => {
    let current = true;
    const again = (): void => {
      read().then(
        (value) => current && setState({ value }),
        (error) => current && setState({ error }),
      );
    };
    again();
    const stop = watch(again);
    return () => {
      current = false;
      stop();
    };
  }, on);
  if (state.error !== undefined) throw state.error;
  return state.value;
}
