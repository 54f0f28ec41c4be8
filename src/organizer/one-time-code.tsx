import { useEffect, useState } from "preact/hooks";
import type { DeviceInfo, Role } from "../model/http.ts";
import { tabletWords } from "../words/en/organizer-tablets.ts";
import { useLead } from "./app-context.ts";
import { Select } from "./fields.tsx";
import { Qr } from "./qr.tsx";
import { addressesFor, entries, scanned } from "./reach.ts";

const words = tabletWords.code;

/** A code that was made, and the devices there were before it, if that is known: whoever is new has used it. */
export type Made = { code: string; expiresAt: string; role: Role; before: readonly string[] | null };

type Reach = { at: "asking" } | { at: "known"; addresses: string[] } | { at: "unknown" };

/** A one-time code, large: to scan, or to type at an address that can be read beside it. */
export function OneTimeCode(props: { made: Made; devices: readonly DeviceInfo[]; onDone: () => void }) {
  const { made, devices, onDone } = props;
  const { now } = useLead();
  const user = devices.find(({ id, role }) => role === made.role && made.before?.includes(id) === false);
  const over = made.expiresAt !== "" && made.expiresAt < now();
  return (
    <div class="one-time">
      <div role="status">
        {user ? (
          <p class="lead-in">{words.used(user.name)}</p>
        ) : over ? (
          <p class="note">{words.over}</p>
        ) : (
          <p class="unseen">{words.made(made.code)}</p>
        )}
      </div>
      {user || over ? null : <Code made={made} />}
      <p>
        <button type="button" class="quiet" onClick={onDone}>
          {words.done}
        </button>
      </p>
    </div>
  );
}

function Code({ made }: { made: Made }) {
  const reach = useReach();
  const [chosen, setChosen] = useState<string | null>(null);
  const typed = <p class="big-code">{made.code}</p>;
  const until = <p class="fine">{words.until(made.expiresAt)}</p>;
  if (reach.at === "asking") return <p class="fine">{words.looking}</p>;
  const addresses = reach.at === "known" ? reach.addresses : [];
  const address = chosen ?? addresses[0];
  if (address === undefined) {
    return (
      <>
        <p>
          {reach.at === "known" ? words.onlyHere : words.unknown}{" "}
          <strong>
            {reach.at === "known" ? `${window.location.origin}/${entries[made.role]}` : `/${entries[made.role]}`}
          </strong>
        </p>
        {typed}
        {until}
      </>
    );
  }
  return (
    <>
      {addresses.length > 1 ? (
        <Select
          id="code-address"
          label={words.which}
          value={address}
          options={addresses.map((each) => ({ value: each, label: each }))}
          onChange={setChosen}
        />
      ) : null}
      <div class="scan">
        <div>
          <p>{words.steps[made.role]}</p>
          <Qr text={scanned(address, made.role, made.code)} label={words.qr} size="15rem" />
        </div>
        <div>
          <p>{words.type}</p>
          <p>
            <strong>{`${address}${entries[made.role]}`}</strong>
          </p>
          {typed}
          {until}
        </div>
      </div>
      <p class="fine">{address.startsWith("https:") ? words.trust : words.plainHttp}</p>
    </>
  );
}

/** Where other devices reach the server: asked once for each code. */
function useReach(): Reach {
  const lead = useLead();
  const [reach, setReach] = useState<Reach>({ at: "asking" });
  useEffect(() => {
    let current = true;
    const { origin, hostname } = window.location;
    addressesFor(lead, { origin, hostname }).then(
      (addresses) => current && setReach({ at: "known", addresses }),
      () => current && setReach({ at: "unknown" }),
    );
    return () => {
      current = false;
    };
  }, []);
  return reach;
}
