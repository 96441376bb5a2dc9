import { isOpenFor, RepairState, type RemedyRow, type RepairTables } from './repair-tables.ts';

export interface SimpleOrder {
  readonly order: readonly RemedyRow[];
  readonly expectedMinutes: number;
}

/**
 * The plain rule, or where that is cheaper the same rule with credit for progress: when a complaint has two causes
 * at once, no single remedy has a chance and the plain rule gives up.
 */
export function simpleOrder(
  tables: RepairTables,
  probabilities: Float64Array,
  unresolved: number,
): SimpleOrder {
  const plain = efficiencyOrder(tables, probabilities, unresolved);
  if (!tables.hasJointScenarios) return plain;
  const credited = efficiencyOrder(tables, probabilities, unresolved, 'progress');
  return credited.expectedMinutes < plain.expectedMinutes ? credited : plain;
}

/**
 * The plain rule: each time the remedy with the highest chance of ending the complaint per minute, given that all
 * before it failed; the service call where it is cheapest along that order (Kadane & Simon 1977; Heckerman,
 * Breese & Rommelse 1995). `state` may be one at hand that has nothing done under these probabilities.
 */
export function efficiencyOrder(
  tables: RepairTables,
  probabilities: Float64Array,
  unresolved: number,
  score: 'gain' | 'progress' = 'gain',
  state = new RepairState(tables, probabilities, unresolved),
): SimpleOrder {
  const open = [...tables.remedies];
  const rateOf = (row: RemedyRow) => state[score](row) / state.minutes(row);
  const rates = open.map(rateOf);
  const order: RemedyRow[] = [];
  let spent = 0;
  let best = { length: 0, minutes: state.persists === 0 ? 0 : state.persists * tables.serviceMinutes };
  while (state.persists > 0 && open.length > 0) {
    let pick = -1;
    let pickRate = 0;
    for (let k = 0; k < open.length; k++) {
      const row = open[k] as RemedyRow;
      if (!isOpenFor(row, open)) continue;
      const rate = rates[k] as number;
      if (rate > pickRate) {
        pick = k;
        pickRate = rate;
      }
    }
    const [row] = pick < 0 ? [] : open.splice(pick, 1);
    if (!row) break;
    rates.splice(pick, 1);
    spent += state.persists * state.minutes(row);
    // Spending only grows: no later stop can win.
    if (spent >= best.minutes) break;
    state.apply(row);
    order.push(row);
    for (let k = 0; k < open.length; k++) {
      const other = open[k] as RemedyRow;
      if ((other.touches & row.touches) !== 0 || row.preparations.length > 0) rates[k] = rateOf(other);
    }
    const minutes = spent + (state.persists === 0 ? 0 : state.persists * tables.serviceMinutes);
    if (minutes < best.minutes) best = { length: order.length, minutes };
  }
  return { order: order.slice(0, best.length), expectedMinutes: best.minutes };
}
