import { moneyPerWorkMinute, type ShopCosts } from '../contract/shop-costs.ts';
import type { Remedy } from '../knowledge/schema.ts';

/** How much of waiting counts where the shop has said no costs: the machine stands, the person does something else. */
const WAITING_SHARE = 0.1;

/** What a minute of waiting counts against a minute of work: the machine stands in both. */
export function waitingShare(costs: ShopCosts | null): number {
  return costs ? costs.standstillPerHour / 60 / moneyPerWorkMinute(costs) : WAITING_SHARE;
}

/**
 * What a remedy counts in planning, in minutes of work at a standing machine: work, a share of the waiting, and, where the
 * shop has said what things cost, its parts.
 */
export function remedyCostMinutes({ minutes, parts }: Remedy, costs: ShopCosts | null): number {
  const time = minutes.handsOn + waitingShare(costs) * minutes.waiting;
  if (!costs) return time;
  const price = parts.reduce((sum, part) => sum + (costs.parts[part] ?? 0), 0);
  return time + price / moneyPerWorkMinute(costs);
}
