import { reader } from "../words/en/reader.ts";
import { Frame } from "./furniture.tsx";
import type { Listed } from "./load.ts";

/** The opened studies, each leading to its page, and the way to answers that came from elsewhere. */
export function StudyList({ list, lead }: { list: Listed[]; lead: boolean }) {
  const words = reader.list;
  return (
    <Frame lead={lead}>
      <h1>{words.heading}</h1>
      {list.length === 0 && <p class="room">{words.none}</p>}
      <ul class="studies">
        {list.map(({ id, title, objective, revealedAt, invented }) => (
          <li key={id}>
            <a href={`./?study=${id}`}>{title || id}</a>
            <p>{objective}</p>
            <p class="fine">
              {words.opened(revealedAt)}
              {invented && ` \u00b7 ${words.invented}`}
            </p>
          </li>
        ))}
      </ul>
      <ElsewhereLink />
    </Frame>
  );
}

/** It needs no study and no enrollment. */
export const ElsewhereLink = () => (
  <p class="elsewhere-link">
    <a href={reader.elsewhere.address}>{reader.elsewhere.link}</a>
  </p>
);
