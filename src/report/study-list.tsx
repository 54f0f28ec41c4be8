import { reader } from "../words/en/reader.ts";
import { Frame } from "./furniture.tsx";
import type { Listed } from "./load.ts";

/** The opened studies, each leading to its page. */
export function StudyList({ list }: { list: Listed[] }) {
  const words = reader.list;
  return (
    <Frame>
      <h1>{words.heading}</h1>
      {list.length === 0 && <p class="room">{words.none}</p>}
      <ul class="studies">
        {list.map(({ id, title, objective, revealedAt }) => (
          <li key={id}>
            <a href={`./?study=${id}`}>{title || id}</a>
            <p>{objective}</p>
            <p class="fine">{words.opened(revealedAt)}</p>
          </li>
        ))}
      </ul>
    </Frame>
  );
}
