import { problem } from "../model/problem.ts";

/** So many wrong codes within `windowMs` lock an address, or everybody, out for `lockMs` after the last one. */
const windowMs = 60_000;
const lockMs = 60_000;
const allowedPerAddress = 10;
/** A flood from many addresses; a few people who mistype, or one who guesses now and then, never get there. */
const allowedInAll = 100;

/**
 * Keeps people from guessing codes. It counts wrong codes only, so forty tablets behind one address enroll freely.
 *
 * `check` throws Problem "enroll/locked-out" while locked: right codes are refused too, or guessing could go on.
 * A code has 40 random bits and lives ten minutes; at 100 wrong ones a minute, with one code always alive, one of them
 * is found in 2^40 / 100 minutes, which is 20,000 years.
 * The counts are in memory: a restart forgets them.
 */
export class WrongCodes {
  readonly #now: () => number;
  #wrong: { at: number; address: string }[] = [];

  constructor(now: () => number) {
    this.#now = now;
  }

  check(address: string): void {
    const now = this.#now();
    this.#wrong = this.#wrong.filter(({ at }) => now - at < windowMs);
    const mine = this.#wrong.filter((wrong) => wrong.address === address);
    const until = Math.max(lockedUntil(this.#wrong, allowedInAll), lockedUntil(mine, allowedPerAddress));
    if (until > now) throw problem("enroll/locked-out", { seconds: Math.ceil((until - now) / 1000) });
  }

  note(address: string): void {
    // bounded: nobody gets past `check` often enough to fill this
    this.#wrong.push({ at: this.#now(), address });
  }
}

function lockedUntil(wrong: { at: number }[], allowed: number): number {
  return wrong.length < allowed ? 0 : (wrong.at(-1)?.at ?? 0) + lockMs;
}
