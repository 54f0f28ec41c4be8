import type { Body } from "../model/event.ts";
import type { OpenedKey } from "../model/key.ts";
import { paperNames, paperWords } from "../words/en/organizer-papers.ts";
import { paperKeyText } from "./paper-key.ts";
import { FlowSheet } from "./paper-parts.tsx";
import { Qr, qrPath } from "./qr.tsx";
import type { PaperSize } from "./use-print.ts";

type Props = { lock: Body<"study-locked">; opened: OpenedKey; passphrase: string | null; size: PaperSize };

/** The page for the envelope: the passphrase or room for it, and the key as text and QR code. */
export function SealedPage({ lock, opened, passphrase, size }: Props) {
  const words = paperWords.sealed;
  const text = paperKeyText(opened, lock.plan, lock.packet.trays);
  const { rounds, salt } = lock.sealed.kdf;
  return (
    <FlowSheet lock={lock} name={paperNames["sealed-page"]} size={size} black={paperWords.blackBarSealed}>
      <p>{words.into}</p>
      <h2>{words.passphrase}</h2>
      {passphrase === null ? (
        <>
          <p>{words.space}</p>
          <p class="write-line" />
          <p class="write-line" />
        </>
      ) : (
        <p class="sealed-words">{passphrase}</p>
      )}
      <h2>{words.key}</h2>
      <p>{words.keyNote}</p>
      {qrPath(text) ? <Qr text={text} label={words.qr} size="62mm" /> : <p>{words.tooLong}</p>}
      <p class="key-text">{text}</p>
      <p class="small-print">
        {words.salt}: {words.derivation(rounds, salt)}
      </p>
    </FlowSheet>
  );
}
