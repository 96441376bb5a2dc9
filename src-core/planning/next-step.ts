import { simpleOrder } from './efficiency-order.ts';
import { leadingChecks, type CheckOffer } from './check-sweep.ts';
import { tablesNow, valueAgainst, type Check, type CheckValue } from './check-value.ts';
import { orderCost } from './cheapest-order.ts';
import { planRemedies, type RepairPlan } from './repair-plan.ts';
import { requireProblem, type RepairProblem } from './repair-problem.ts';
import { PolicySearch } from './policy-search.ts';
import {
  isOpenFor,
  RepairState,
  withThoseBefore,
  type RemedyRow,
  type RepairTables,
} from './repair-tables.ts';
import { bitsPerMinute, tellingQuickChecks, type QuickCheckRule } from './quick-checks.ts';
import { TwoStepLookAhead } from './two-step-look-ahead.ts';

export interface NextStepOptions {
  /** Checks that get a full look after a rough sort. */
  readonly finalists?: number;
  /** Of these, and of the remedies, how many are looked at two steps ahead; 0 for one-step look-ahead. */
  readonly twoStepLookAheads?: number;
  /** Savings below this many minutes count as none: see `NextStep.act` and `RankedCheck.pays`. */
  readonly leastSavingMinutes?: number;
  /** States of the search over all policies of the leading remedies and checks; 0 for none. */
  readonly policyStates?: number;
  /** Quick checks come before a remedy that will probably fail; without a rule cost alone decides. */
  readonly quickChecks?: QuickCheckRule;
}

export interface RankedCheck extends CheckValue {
  /** Index into the checks given. `expectedMinutes` is lower than `value` says where a second check may follow. */
  readonly check: number;
  /** True when the check saves more minutes than it takes against the cheapest way without it, by the margin asked for. */
  readonly pays: boolean;
  /** What it tells is not wholly relied on. */
  readonly isIndirect: boolean;
}

export interface RankedRemedy {
  /** Index into the problem's remedies. */
  readonly remedy: number;
  /** Minutes of doing it now, preparations included. */
  readonly minutes: number;
  /** Probability that it ends the complaint now. */
  readonly cureProbability: number;
  /** Expected minutes from now to the end when this remedy comes first. */
  readonly expectedMinutes: number;
}

export interface NextStep {
  /** What to do now. `service` when nothing else is worth its minutes. */
  readonly best:
    | { readonly kind: 'check'; readonly check: number; readonly expectedMinutes: number }
    | { readonly kind: 'remedy'; readonly remedy: number; readonly expectedMinutes: number }
    | { readonly kind: 'service'; readonly expectedMinutes: number };
  /** The best to do without a check first; a check may follow it. */
  readonly act: Exclude<NextStep['best'], { readonly kind: 'check' }>;
  /** The best remedy plan with no further check at all. */
  readonly actNow: RepairPlan;
  /** Finalists, cheapest first. */
  readonly checks: readonly RankedCheck[];
  /** Useful remedies that nothing else comes before, cheapest first step first. */
  readonly remedies: readonly RankedRemedy[];
}

const FINALISTS = 8;
/** Quick checks that get a full look for what they tell. */
const QUICK_LOOKS = 4;
/** Remedies looked at two steps ahead. */
const SECOND_LOOKS = 4;
/** About 2 ms: seven remedies and three or four checks. */
const POLICY_STATES = 16_384;
/** Remedies whose expected cost as a first step is worked out in full; the rest are ranked by chance over cost. */
const REMEDIES_IN_FULL = 12;
/** Where a margin is asked for, costs within this share of the least count as equal too: on a long case two minutes are nothing. Our own. */
const EQUAL_SHARE = 0.03;
/** A remedy as likely as this is worth doing without a further look. */
const EVEN_CHANCE = 0.5;
/** A look is worth taking before a remedy that takes at least this many times as long. Our own. */
const LOOKS_IN_A_REMEDY = 3;
/** A look whose answer is as good as known is taken when it spares this many times its minutes on average. Our own. */
const STAKE_IN_LOOKS = 2;
/** A saving below this many minutes is no reason to ask anybody to check something. */
const LEAST_SAVING_MINUTES = 1e-6;

/**
 * Best next step among open checks and remedies: each check's expected cost, its own minutes included, against
 * that of acting now. A check is proposed only if it pays. One-step look-ahead, where after a check the plan is
 * remedies only (Heckerman, Breese & Rommelse 1995), for the best of them a second step, where another check may follow, and
 * for the leading few the best of all policies.
 */
export function nextStep(
  problem: RepairProblem,
  checks: readonly Check[],
  options: NextStepOptions = {},
): NextStep {
  checks.forEach((check) => requireCheck(problem, check));
  return nextStepAmong(problem, checks.map(offerOf), options);
}

/** `nextStep` with forecasts on demand. */
export function nextStepAmong(
  problem: RepairProblem,
  offers: readonly CheckOffer[],
  options: NextStepOptions = {},
): NextStep {
  requireProblem(problem);
  const actNow = planRemedies(problem);
  const now = tablesNow(problem);
  const { tables, probabilities } = now;
  const few = leadingRemedies(tables, actNow.order);
  const leading = leadingChecks(
    problem,
    now,
    actNow.expectedMinutes,
    few,
    offers,
    options.finalists ?? FINALISTS,
  );
  const rule = options.quickChecks;
  const telling = rule ? tellingQuickChecks(problem, offers, rule, QUICK_LOOKS) : [];
  const looked = [...new Set([...leading, ...telling])].map((index) => {
    const check = (offers[index] as CheckOffer).inFull();
    return { index, check, ...valueAgainst(problem, check, now, actNow.expectedMinutes) };
  });
  looked.sort((a, b) => a.expectedMinutes - b.expectedMinutes);
  // By default all that were looked at: one with a second look would pass for cheaper than one without.
  const secondLooks = options.twoStepLookAheads ?? looked.length;
  const twoStepLookAheads = options.twoStepLookAheads ?? SECOND_LOOKS;
  const leastSaving = Math.max(LEAST_SAVING_MINUTES, options.leastSavingMinutes ?? 0);
  const further = new TwoStepLookAhead(problem, few);
  const standing = rankRemedies(problem, tables, probabilities, actNow);
  const rows = new Map(tables.remedies.map((row) => [row.index, row]));
  const places = new Map(standing.map(({ remedy }, place) => [remedy, place]));
  const placeOf = ({ index }: RemedyRow) => places.get(index) ?? standing.length;
  const byStanding = tables.remedies.toSorted((a, b) => placeOf(a) - placeOf(b));
  const isLeading = (row: RemedyRow) => few.remedies.includes(row);
  const policies = new PolicySearch(
    problem,
    tables,
    [...byStanding.filter(isLeading), ...byStanding.filter((row) => !isLeading(row))],
    looked.map(({ check }) => check),
    options.policyStates ?? POLICY_STATES,
  );
  const remedies = standing
    .map((one, place): RankedRemedy => {
      const row = rows.get(one.remedy);
      if (!row) return one;
      const second =
        place < twoStepLookAheads && isLeading(row)
          ? further.costOfRemedy(row, looked, one.expectedMinutes)
          : one.expectedMinutes;
      return { ...one, expectedMinutes: Math.min(second, policies.costOfRemedy(row)) };
    })
    .sort((a, b) => a.expectedMinutes - b.expectedMinutes);
  const act = actingNow(actNow, remedies, leastSaving);
  // Not the remedy shown: against a dearer one a check would seem to save what nobody has to spend.
  const cheapestAct = Math.min(act.expectedMinutes, remedies[0]?.expectedMinutes ?? Infinity);
  // Handing over is the last resort: any check that saves something comes before it.
  const leastWorth = act.kind === 'service' ? leastSaving : marginAt(cheapestAct, leastSaving);
  const ranked = looked
    .map(({ index, check, ...value }, place): RankedCheck => {
      const others = looked.filter((one) => one.index !== index);
      const second =
        place < secondLooks ? further.costOfCheck({ check, ...value }, others) : value.expectedMinutes;
      const trust = offers[index]?.trust ?? 1;
      const promised = Math.min(second, policies.costOfCheck(check));
      const expectedMinutes = promised + (1 - trust) * Math.max(0, cheapestAct - promised);
      const pays = expectedMinutes < cheapestAct - leastWorth;
      const informationBits = trust * value.informationBits;
      return { ...value, informationBits, expectedMinutes, check: index, pays, isIndirect: trust < 1 };
    })
    .sort((a, b) => a.expectedMinutes - b.expectedMinutes);
  const isKnown = problem.scenarios.some(({ probability }) => probability >= (rule?.known ?? 1));
  const atHand = remedies.find((one) => act.kind === 'remedy' && one.remedy === act.remedy) ?? null;
  const waitsForCheck = rule && !isKnown && (atHand?.cureProbability ?? 0) < rule.leastChance;
  const askedOf = (among: readonly RankedCheck[]) =>
    mostTelling(among, leastSaving) ??
    (waitsForCheck ? quickest(among, rule) : null) ??
    (rule && !isKnown && atHand ? lookFirst(among, rule, atHand) : null);
  const open = rule ? ranked.filter((one) => isWorthABet(one, rule, atHand?.minutes ?? 0)) : ranked;
  // What a lead would bet on is asked only where nothing better is to be done.
  const asked = askedOf(open) ?? (rule && !waitsForCheck && atHand ? null : askedOf(ranked));
  const best: NextStep['best'] = asked
    ? { kind: 'check', check: asked.check, expectedMinutes: asked.expectedMinutes }
    : act;
  return { best, act, actNow, checks: ranked, remedies };
}

/** Whether the answer is open enough to ask for it, or the minutes it may spare are many enough beside those it takes. */
function isWorthABet(
  { answers, minutes }: CheckValue,
  { leastDoubt }: QuickCheckRule,
  spareableMinutes: number,
): boolean {
  const doubt = 1 - answers.reduce((most, { probability }) => Math.max(most, probability), 0);
  return doubt >= leastDoubt || doubt * spareableMinutes >= STAKE_IN_LOOKS * minutes;
}

/** Minutes within which costs near `minutes` count as equal; where no margin is asked for, only rounding. */
function marginAt(minutes: number, leastSaving: number): number {
  return leastSaving > LEAST_SAVING_MINUTES ? Math.max(leastSaving, EQUAL_SHARE * minutes) : leastSaving;
}

/** Of the checks that pay, those within the margin of the cheapest count as equal: then the one that tells most. */
function mostTelling(checks: readonly RankedCheck[], leastSaving: number): RankedCheck | null {
  const [cheapest] = checks;
  if (!cheapest?.pays) return null;
  const limit = cheapest.expectedMinutes + marginAt(cheapest.expectedMinutes, leastSaving);
  const [best] = checks
    .filter((one) => one.pays && one.expectedMinutes <= limit)
    .sort((a, b) => b.informationBits - a.informationBits || a.expectedMinutes - b.expectedMinutes);
  return best ?? null;
}

/** The quick check that tells most for its time, or null where none tells the leading causes apart. */
function quickest(checks: readonly RankedCheck[], rule: QuickCheckRule): RankedCheck | null {
  const worth = (one: RankedCheck) => bitsPerMinute(one.informationBits, one.minutes);
  const [best] = checks
    .filter(({ minutes, informationBits }) => minutes <= rule.minutes && informationBits >= rule.bits)
    .sort((a, b) => worth(b) - worth(a));
  return best ?? null;
}

/**
 * A look before the work: where the remedy will more likely fail than help and takes several times as long, the check among
 * those that cost as good as nothing more which tells most for its time.
 */
function lookFirst(
  checks: readonly RankedCheck[],
  rule: QuickCheckRule,
  remedy: RankedRemedy,
): RankedCheck | null {
  if (remedy.cureProbability >= EVEN_CHANCE) return null;
  const limit = remedy.expectedMinutes + marginAt(remedy.expectedMinutes, rule.lookMinutes);
  const looks = checks.filter(
    (one) =>
      !one.isIndirect && one.expectedMinutes <= limit && LOOKS_IN_A_REMEDY * one.minutes <= remedy.minutes,
  );
  return quickest(looks, { ...rule, bits: rule.lookBits });
}

/**
 * The cheapest first remedy, or handing over where no remedy is worth its minutes. Costs within the margin count as equal: then
 * the one that most probably helps.
 */
function actingNow(
  actNow: RepairPlan,
  remedies: readonly RankedRemedy[],
  leastSaving: number,
): NextStep['act'] {
  const least = remedies[0]?.expectedMinutes ?? 0;
  const limit = least + marginAt(least, leastSaving);
  const [first] = remedies
    .filter(({ expectedMinutes }) => expectedMinutes < limit)
    .sort((a, b) => b.cureProbability - a.cureProbability);
  const isWorthIt =
    first !== undefined &&
    (actNow.order.length > 0 || first.expectedMinutes < actNow.expectedMinutes - LEAST_SAVING_MINUTES);
  return isWorthIt
    ? { kind: 'remedy', remedy: first.remedy, expectedMinutes: first.expectedMinutes }
    : { kind: 'service', expectedMinutes: actNow.expectedMinutes };
}

function offerOf(check: Check): CheckOffer {
  const { id, minutes, preparations, levels, unresolvedLevels } = check;
  const levelCount = unresolvedLevels.length;
  return {
    id,
    minutes,
    ...(preparations && { preparations }),
    levelCount,
    forecast: (into) => {
      levels.forEach((row, s) => {
        for (let level = 0; level < levelCount; level++) into[s * levelCount + level] = row[level] ?? 0;
      });
      into.set(unresolvedLevels, levels.length * levelCount);
    },
    inFull: () => check,
  };
}

/** The remedies of the plan and the two that do most per minute for each scenario: enough to sort checks by. */
function leadingRemedies(tables: RepairTables, planned: readonly number[]): RepairTables {
  const kept = new Set<RemedyRow>(tables.remedies.filter((row) => planned.includes(row.index)));
  const alone = new Float64Array(tables.scenarioCount);
  const state = new RepairState(tables, alone, 0);
  for (let s = 0; s < tables.scenarioCount; s++) {
    alone.fill(0);
    alone[s] = 1;
    state.reset();
    tables.remedies
      .filter((row) => row.scenarios.includes(s))
      .map((row) => ({ row, rate: state.progress(row) / row.minutes }))
      .sort((a, b) => b.rate - a.rate)
      .slice(0, 2)
      .forEach(({ row }) => kept.add(row));
  }
  return { ...tables, remedies: withThoseBefore(tables.remedies, kept) };
}

function rankRemedies(
  problem: RepairProblem,
  tables: RepairTables,
  probabilities: Float64Array,
  actNow: RepairPlan,
): readonly RankedRemedy[] {
  const start = new RepairState(tables, probabilities, problem.unresolved);
  const rows = tables.remedies
    .filter((row) => isOpenFor(row, tables.remedies))
    .map((row) => ({ row, cureProbability: start.gain(row), minutes: start.minutes(row) }))
    .sort((a, b) => b.cureProbability / b.minutes - a.cureProbability / a.minutes);
  const continued = actNow.order.flatMap((index) => tables.remedies.find((row) => row.index === index) ?? []);
  return rows
    .map(({ row, cureProbability, minutes }, rank): RankedRemedy => {
      // First this one, then the better of the standing plan and the chance-over-cost order.
      const standing = orderCost(
        tables,
        [row, ...continued.filter((each) => each !== row)],
        probabilities,
        problem.unresolved,
      );
      const isFirst = actNow.order[0] === row.index;
      const expectedMinutes = isFirst
        ? actNow.expectedMinutes
        : rank < REMEDIES_IN_FULL
          ? Math.min(standing, costAfterFirst(problem, tables, probabilities, row))
          : standing;
      return { remedy: row.index, minutes, cureProbability, expectedMinutes };
    })
    .sort((a, b) => a.expectedMinutes - b.expectedMinutes);
}

/** Cost of an order that starts with `first` and goes on by chance over cost. */
function costAfterFirst(
  problem: RepairProblem,
  tables: RepairTables,
  probabilities: Float64Array,
  first: RemedyRow,
): number {
  const others = { ...tables, remedies: tables.remedies.filter((row) => row !== first) };
  const state = new RepairState(tables, probabilities, problem.unresolved);
  state.apply(first);
  const left = probabilities.map((p, s) => p * (state.held[s] ?? 0));
  const { order } = simpleOrder(others, left, problem.unresolved);
  return orderCost(tables, [first, ...order], probabilities, problem.unresolved);
}

function requireCheck(problem: RepairProblem, check: Check): void {
  if (!(check.minutes >= 0 && check.minutes < Infinity)) {
    throw new RangeError(`minutes of check "${check.id}" must be finite and >= 0, got ${check.minutes}`);
  }
  if (check.levels.length !== problem.scenarios.length) {
    throw new RangeError(
      `check "${check.id}" must have levels for ${problem.scenarios.length} scenarios, got ${check.levels.length}`,
    );
  }
  for (const name of check.preparations ?? []) {
    if (!problem.preparations?.has(name)) {
      throw new RangeError(`check "${check.id}" needs preparation "${name}", which has no minutes`);
    }
  }
}
