import { useEffect, useState } from "preact/hooks";
import { reader } from "../words/en/reader.ts";

/** Sooner than this nothing is said: most results are there before. */
const quietMs = 1000;

/** That something is being computed, and a way to stop it; nothing at first, so that a quick result brings no flash. */
export function Waiting({ text, onStop }: { text: string; onStop: () => void }) {
  const [long, setLong] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setLong(true), quietMs);
    return () => clearTimeout(timer);
  }, []);
  return (
    <div role="status">
      {long && (
        <>
          <p>{text}</p>
          <button type="button" class="quiet" onClick={onStop}>
            {reader.large.stop}
          </button>
        </>
      )}
    </div>
  );
}
