import type { ShopCosts } from '../contract/shop-costs.ts';

/** The costs that planning counts with: none where nobody has said any, or while they are not to be counted. */
export function countedCosts(costs: ShopCosts | null): ShopCosts | null {
  return costs?.isCounted ? costs : null;
}

/** Money for a minute of somebody working at a machine that stands still meanwhile: the unit that planning counts in. */
export function moneyPerWorkMinute({ workPerHour, standstillPerHour }: ShopCosts): number {
  return (workPerHour + standstillPerHour) / 60;
}
