import type { OpenedKey } from "../model/key.ts";
import { commitmentOf } from "./commitment.ts";

/** Does this opened key give the commitment that was locked? If not, it is not the key the trays were made with. */
export const checksCommitment = (opened: OpenedKey, commitment: string): boolean => commitmentOf(opened) === commitment;
