import { useEffect, useState } from "preact/hooks";
import { BalanceLink, type BalanceState } from "../device/balance.ts";

/** The page's connection to a balance: one for all its screens, so that going from one to the other keeps it. */
export const balance = new BalanceLink();

/** A part of the connection's state, as it is now; the screen is drawn anew only when that part changes. */
export function useBalance<T>(part: (state: BalanceState) => T): T {
  const [shown, setShown] = useState(() => part(balance.state()));
  useEffect(() => {
    const look = (): void => setShown(() => part(balance.state()));
    look();
    return balance.onChange(look);
  }, []);
  return shown;
}
