import type { ClaimState } from "../log/claim.ts";
import type { StudyState } from "../log/fold.ts";
import { holdsLosses } from "../model/ledger.ts";
import type { MassSource } from "../model/measured.ts";
import type { Product } from "../model/plan.ts";
import { massesWords as words } from "../words/en/organizer-masses.ts";
import type { ClaimStudy } from "./claim-results.ts";
import { planOf } from "./study-stage.ts";

/** Masses that could stand beside a study's answers. `id` names them on the page. */
export type MassChoice = { id: string; label: string; source: MassSource };

const same = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();

/** What is called as a product of the study is that product, until somebody says otherwise. */
const guessed = (names: readonly string[], products: readonly Product[]): MassSource["products"] =>
  names.map((named) => ({
    named,
    product: named.trim() === "" ? null : (products.find(({ name }) => same(name, named))?.id ?? null),
  }));

/** Every ledger in a claim that holds losses of two processes or more. */
export function ledgerChoices(
  claims: readonly { id: string; state: ClaimState }[],
  products: readonly Product[],
): MassChoice[] {
  return claims.flatMap(({ id, state }) => {
    const claim = state.current?.claim;
    return (claim?.measures ?? []).flatMap(({ id: measure, name, weighed }) => {
      if (!claim || !weighed || weighed.products.length < 2 || !holdsLosses(weighed)) return [];
      const title = words.title(claim.title.trim(), name.trim());
      // the two that a ledger of a claim compares go by the claim's names
      const names = weighed.products.map((own, at) => own.trim() || [claim.first, claim.second][at]?.trim() || "");
      return {
        id: `${id} ${measure}`,
        label: words.ledger(claim.title.trim(), name.trim()),
        source: {
          kind: "ledger",
          claim: id,
          title,
          ledger: { ...weighed, products: names },
          products: guessed(names, products),
        },
      };
    });
  });
}

/** Every opened study of chewed portions but this one. */
export function portionChoices(
  studies: readonly ClaimStudy[],
  study: string,
  products: readonly Product[],
): MassChoice[] {
  return studies.flatMap(({ id, plan, result }) => {
    if (id === study || result?.family !== "portions" || plan.blank || result.products.length < 2) return [];
    const title = plan.title.trim();
    return {
      id,
      label: words.portions(title),
      source: {
        kind: "portions",
        study: id,
        title,
        found: result.masses,
        products: guessed(result.products, products),
      },
    };
  });
}

/** Studies whose masses may be asked for. */
export const chewStudies = (studies: readonly { id: string; state: StudyState }[]): string[] =>
  studies.filter(({ state }) => state.reveal && planOf(state)?.method === "chew-and-weigh").map(({ id }) => id);

/** Can it say anything of this study? Two of its products have to be two of the study's. */
export const speaksOf = ({ products }: MassSource): boolean =>
  new Set(products.flatMap(({ product }) => product ?? [])).size > 1;
