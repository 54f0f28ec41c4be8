import { focusSoon } from "../ui/focus.ts";
import { headingId } from "./page.tsx";

type Version<T> = { event: string; device: string; at: string; document: T };

type Props<T, F> = {
  /** The version that stands; nothing shows without one, or without others. */
  current: T | undefined;
  others: readonly Version<T>[];
  differences: (one: T, other: T) => readonly F[];
  words: {
    heading: (count: number) => string;
    other: (name: string, at: string, differs: readonly F[]) => string;
    take: string;
    takeOf: (name: string) => string;
    keep: string;
  };
  settle: (instead: T | null) => void;
  nameOf: (device: string) => string;
};

/**
 * Versions of a document that two browsers wrote without knowing of each other: in what they differ, and the choice between
 * them. It stays at the lower edge, so that it is seen wherever somebody is typing when it comes.
 */
export function OtherVersions<T, F>({ current, others, differences, words, settle, nameOf }: Props<T, F>) {
  if (current === undefined || others.length === 0) return null;
  const choose = (instead: T | null): void => {
    settle(instead);
    focusSoon(headingId);
  };
  return (
    <div class="undo no-print">
      <p>{words.heading(others.length + 1)}</p>
      <ul class="plain">
        {others.map(({ event, device, at, document }) => (
          <li key={event}>
            {words.other(nameOf(device), at, differences(current, document))}{" "}
            <button type="button" class="quiet" onClick={() => choose(document)}>
              {words.take}
              <span class="unseen">{words.takeOf(nameOf(device))}</span>
            </button>
          </li>
        ))}
      </ul>
      <button type="button" onClick={() => choose(null)}>
        {words.keep}
      </button>
    </div>
  );
}
