import * as z from "zod/mini";
import { pot } from "./kitchen-event.ts";
import { code, hash, hex, id, line, trayNumber } from "./schema.ts";

/** The sealed half of the serving plan: which code is which product and batch, per tray, and the design's seed. */
export const key = z.strictObject({
  v: z.literal(1),
  study: id,
  seed: hex,
  trays: z.array(
    z.strictObject({
      tray: trayNumber,
      /** Order label in the trade's letters, A = first product of the plan: "AAB"; with a reference "A:BA". */
      order: z.string().check(z.maxLength(12)),
      samples: z.array(z.strictObject({ code, product: id, batch: line })),
      /** What is in the uncoded cup, where there is one. Left out elsewhere: a commitment covers this text as it is. */
      reference: z.optional(z.strictObject({ product: id, batch: line })),
    }),
  ),
  /** Which batch is in the pot of a label: on the day the kitchen writes labels down. Keys of older locks have none. */
  pots: z.optional(z.array(z.strictObject({ pot, product: id, batch: line }))),
});
export type Key = z.infer<typeof key>;

/** The key with the random bytes of its commitment: what is encrypted, and what the reveal puts into the log. */
export const openedKey = z.strictObject({ key, salt: hex });
export type OpenedKey = z.infer<typeof openedKey>;

/** The key as it is stored and sent: AES-256-GCM under a key made from the passphrase by PBKDF2-HMAC-SHA-256. */
export const sealedKey = z.strictObject({
  v: z.literal(1),
  study: id,
  commitment: hash,
  kdf: z.strictObject({ rounds: z.number().check(z.int(), z.minimum(600_000), z.maximum(10_000_000)), salt: hex }),
  iv: hex,
  /** Base64. The plaintext is padded to a fixed block, so that its length tells nothing. */
  ciphertext: z.string().check(z.maxLength(4_000_000)),
});
export type SealedKey = z.infer<typeof sealedKey>;
