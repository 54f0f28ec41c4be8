import type { ComponentChildren } from "preact";

/** A number with a slider under it: both change the same value. */
export function Dial(props: {
  label: string;
  low: number;
  high: number;
  step?: number;
  value: number;
  onValue: (value: number) => void;
  children: ComponentChildren;
}) {
  const { label, low, high, step = 1, value, onValue, children } = props;
  return (
    <div class="dial">
      {children}
      <input
        type="range"
        aria-label={label}
        min={low}
        max={high}
        step={step}
        value={Math.round(value / step) * step}
        onInput={(event) => onValue(Number(event.currentTarget.value))}
      />
    </div>
  );
}
