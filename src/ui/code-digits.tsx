/**
 * A three-digit code as people read it on a cup: widely set, 6 and 9 underlined, and read out digit by digit.
 */
export function CodeDigits({ code }: { code: string }) {
  const digits = [...code].map((digit, place) => ({ digit, place }));
  return (
    <span class="code">
      <span class="unseen">{[...code].join(" ")}</span>
      {digits.map(({ digit, place }) => (
        <span key={place} aria-hidden="true" class={digit === "6" || digit === "9" ? "turnable" : undefined}>
          {digit}
        </span>
      ))}
    </span>
  );
}
