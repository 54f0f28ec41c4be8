import { describe, expect, test } from "vitest";
import { emptyKitchen } from "../../src/design/begin.ts";
import { emptyPlan } from "../../src/design/readiness.ts";
import { isHolding, usualLimits } from "../../src/model/safety-limit.ts";
import {
  allChecked,
  applyFood,
  byFood,
  changeLimit,
  differsFromTable,
  holdsTo,
  offeredFoods,
  takeTable,
  withLimit,
  withoutLimit,
  withTable,
  withUncooked,
} from "../../src/organizer/kitchen-limits.ts";

const kitchen = emptyKitchen();
const table = usualLimits();
const [poultry = [], ground = []] = byFood(table);

describe("the kitchen's table", () => {
  test("a changed row was not checked; a day puts that right, for one row or for all", () => {
    const checked = allChecked(kitchen, "2026-05-03");
    expect(new Set(checked.limits.map((row) => row.checked))).toEqual(new Set(["2026-05-03"]));
    const changed = changeLimit(checked, 0, { celsius: 75 });
    expect(changed.limits[0]).toMatchObject({ celsius: 75, checked: "" });
    expect(changed.limits[1]?.checked).toBe("2026-05-03");
    expect(changeLimit(changed, 0, { checked: "2026-05-04" }).limits[0]?.checked).toBe("2026-05-04");
  });

  test("a new row stands below those of its kind, and removing it gives the table back", () => {
    const more = withLimit(kitchen, "cooking");
    expect(more.limits.map(({ kind }) => kind).slice(3, 6)).toEqual(["cooking", "cooking", "hot-holding"]);
    expect(withoutLimit(more, 4)).toEqual(kitchen);
  });

  test("the other table has two rows for roasts, which are one food", () => {
    const roasts = byFood(withTable(kitchen, "food-service").limits).filter((rows) => rows.length > 1);
    expect(roasts.map((rows) => rows.map(({ celsius }) => celsius))).toEqual([[63, 54]]);
  });
});

describe("a plan", () => {
  const chosen = applyFood(emptyPlan(), poultry, true, table);
  test("begins with the limits of holding and is asked for cooking", () => {
    expect(emptyPlan().limits).toEqual(table.filter(isHolding));
    expect(holdsTo(chosen, poultry)).toBe(true);
    expect(holdsTo(chosen, ground)).toBe(false);
    expect(applyFood(chosen, poultry, false, table).limits).toEqual(emptyPlan().limits);
  });

  test("an old one without limits takes those of holding with the first that it chooses", () => {
    expect(applyFood({ ...emptyPlan(), limits: [] }, poultry, true, table).limits).toEqual(chosen.limits);
  });

  test("says that nothing is cooked, or what is, never both", () => {
    const uncooked = withUncooked(chosen, true);
    expect(uncooked.limits).toEqual(emptyPlan().limits);
    expect(applyFood(uncooked, ground, true, table).uncooked).toBe(false);
  });

  test("keeps its limits while the table changes, and takes over the new ones when somebody says so", () => {
    expect(differsFromTable(chosen, table)).toBe(false);
    const now = changeLimit(kitchen, 0, { celsius: 75 }).limits;
    expect(differsFromTable(chosen, now)).toBe(true);
    expect(takeTable(chosen, now).limits[0]).toMatchObject({ celsius: 75 });
    expect(differsFromTable(takeTable(chosen, now), now)).toBe(false);
  });

  test("still offers a food that the kitchen took off its table", () => {
    const now = withoutLimit(kitchen, 0).limits;
    expect(offeredFoods(chosen, now)).toContainEqual(poultry);
    expect(holdsTo(takeTable(chosen, now), poultry)).toBe(true);
  });
});
