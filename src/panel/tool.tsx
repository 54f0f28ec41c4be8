import { useState } from "preact/hooks";
import type { BlindPacket } from "../model/packet.ts";
import type { PanelWords } from "../words/en/panel.ts";
import { useDesk } from "./desk.ts";
import type { AppParts } from "./parts.ts";
import type * as toolsRoom from "./tools/tools-room.tsx";

type Name = keyof PanelWords["tools"];
type Open = { name: Name; room: typeof toolsRoom };

/** Which page of the staff is open on a tablet at rest, and the way to open one (null: none). */
export function useTool(load: AppParts["loadTools"]): [Open | null, (name: Name | null) => void] {
  const [open, setOpen] = useState<Open | null>(null);
  const choose = (name: Name | null): void => {
    if (name === null) setOpen(null);
    // what fails here is said by the screen at rest
    else void load().then((room) => setOpen({ name, room }));
  };
  return [open, choose];
}

export function ToolButtons({ open }: { open: (name: Name) => void }) {
  const { tools } = useDesk().words;
  return (
    <div class="actions">
      {(Object.entries(tools) as [Name, string][]).map(([name, label]) => (
        <button key={name} type="button" class="quiet" onClick={() => open(name)}>
          {label}
        </button>
      ))}
    </div>
  );
}

type Props = { tool: Open; parts: AppParts; packet: BlindPacket | null; leave: () => void };

export function Tool({ tool: { name, room }, ...rest }: Props) {
  return <room.ToolPage name={name} {...rest} />;
}
