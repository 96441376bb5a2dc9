import type { ShopCosts } from '../contract/shop-costs.ts';
import { moneyPerWorkMinute } from './counted-costs.ts';
import { strengthProbability } from '../knowledge/scale.ts';
import type { Observation, Remedy } from '../knowledge/schema.ts';

/** How much of waiting counts where the shop has said no costs: the machine stands, the person does something else. */
const WAITING_SHARE = 0.1;

/** A check that breaks the part costs one: mostly it was bad already, but it is gone for further checks. Our own estimate. */
const PART_LOST_MINUTES = 10;

/** What a minute of waiting counts against a minute of work: the machine stands in both. */
export function waitingShare(costs: ShopCosts | null): number {
  return costs ? costs.standstillPerHour / 60 / moneyPerWorkMinute(costs) : WAITING_SHARE;
}

/** What a check counts in planning, in minutes of work: the preparations of the machine are counted by the plan. */
export function checkCostMinutes({ minutes, destroysPart }: Observation['check']): number {
  return minutes + (destroysPart ? PART_LOST_MINUTES : 0);
}

/**
 * What a remedy counts in planning, in minutes of work at a standing machine: work, a share of the waiting and of the
 * printing that proves it, the work that
 * comes on average from what may go wrong, and, where the shop has said what things cost, its parts.
 */
export function remedyCostMinutes({ minutes, parts, risk }: Remedy, costs: ShopCosts | null): number {
  const mishap = risk ? strengthProbability(risk.chance) * risk.minutes : 0;
  const time = minutes.handsOn + waitingShare(costs) * (minutes.waiting + minutes.proving) + mishap;
  if (!costs) return time;
  const price = parts.reduce((sum, part) => sum + (costs.parts[part] ?? 0), 0);
  return time + price / moneyPerWorkMinute(costs);
}
