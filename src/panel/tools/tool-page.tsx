import type { BlindPacket } from "../../model/packet.ts";
import type { AppParts } from "../parts.ts";
import { CheckPage } from "./check-page.tsx";
import { PaperPage } from "./paper-page.tsx";
import { Wipe } from "./wipe.tsx";

type Props = {
  name: "check" | "wipe" | "paper";
  parts: AppParts;
  packet: BlindPacket | null;
  leave: () => void;
};

/** A page of the staff, by its name. */
export function ToolPage({ name, parts, packet, leave }: Props) {
  const { store, clock, glass } = parts;
  switch (name) {
    case "wipe":
      return <Wipe clock={clock} leave={leave} />;
    case "paper":
      return <PaperPage parts={parts} packet={packet} leave={leave} />;
    case "check":
      return (
        <CheckPage
          store={store}
          glass={glass}
          instant={clock.instant}
          lengthMm={packet?.line?.lengthMm ?? null}
          back={leave}
        />
      );
  }
}
