import { describe, expect, it } from 'vitest';
import { moneyPerWorkMinute } from '../../src-core/session/counted-costs.ts';
import { checkCostMinutes, remedyCostMinutes } from '../../src-core/session/step-cost.ts';
import { programInMemory, saveCosts } from '../operations/program-in-memory.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const COSTS = {
  currency: 'Taler',
  workPerHour: 30,
  standstillPerHour: 6,
  parts: { 'New nozzle': 12 },
  isCounted: true,
};

describe('what a remedy costs', () => {
  const any = [...shippedKnowledge().remedies.values()].find(({ risk }) => !risk);
  if (!any) throw new Error('the guide has no remedies');
  const remedy = {
    ...any,
    minutes: { handsOn: 10, waiting: 40, proving: 20 },
    parts: ['New nozzle', 'Something without a price'],
  };

  it('is work, standstill and parts, in minutes of work at a standing machine', () => {
    // By hand: 10 min at 36 an hour are 6, 40 min of waiting and 20 of proving 6, the nozzle 12: 24 Taler, at 0.6 a minute 40 min.
    expect(moneyPerWorkMinute(COSTS)).toBeCloseTo(0.6, 12);
    expect(remedyCostMinutes(remedy, COSTS)).toBeCloseTo(40, 9);
  });

  it('is work and a tenth of the waiting and of the proving where nobody has said', () => {
    expect(remedyCostMinutes(remedy, null)).toBeCloseTo(16, 9);
  });

  it('bears what may go wrong, as often as it does, and a check the part that it breaks', () => {
    const risk = { of: 'A lead breaks.', chance: 0.05, minutes: 60, source: 'estimate' } as const;
    expect(remedyCostMinutes({ ...remedy, risk }, null)).toBeCloseTo(16 + 0.05 * 60, 9);
    // An hour of work at a standing machine is an hour, whatever it costs.
    expect(remedyCostMinutes({ ...remedy, risk }, COSTS)).toBeCloseTo(40 + 3, 9);
    const { check } = shippedKnowledge().observations.get('part-brittle') ?? {};
    if (!check) throw new Error('the guide has no snap test');
    expect(checkCostMinutes(check) - checkCostMinutes({ ...check, destroysPart: false })).toBeGreaterThan(0);
  });
});

it('a shop that prices a part sees the remedy in its money, and gets cheaper ones first where the part is dear', async () => {
  const { ask } = await programInMemory();
  const open = () =>
    ask('case:open', {
      conditions: { polymer: 'pa6', filler: 'carbon-fibre', 'filler-percent': 30, 'nozzle-mm': 0.4 },
      complaints: [{ observation: 'repeated-nozzle-clog', value: 'present' }],
    });
  const plain = await open();
  expect(plain.money).toBeNull();
  const first = plain.remedies[0];
  const { parts = [], minutes } = shippedKnowledge().remedies.get(first?.id ?? '') ?? {};
  expect(parts.length).toBeGreaterThan(0);
  const pricesOf = (price: number) => Object.fromEntries(parts.map((part) => [part, price]));
  await saveCosts(ask, { costs: { ...COSTS, parts: pricesOf(12) } });
  const priced = await open();
  expect(priced.money).toEqual({ currency: 'Taler', perWorkMinute: 0.6 });
  const { handsOn = NaN, waiting = NaN, proving = NaN } = minutes ?? {};
  expect(priced.remedies.find(({ id }) => id === first?.id)?.price).toBeCloseTo(
    0.6 * handsOn + 0.1 * (waiting + proving) + 12 * parts.length,
    9,
  );
  await saveCosts(ask, { costs: { ...COSTS, parts: pricesOf(5000) } });
  const dear = await open();
  expect(dear.remedies[0]?.id).not.toBe(first?.id);
  expect(dear.next?.id).not.toBe(first?.id);
  // Costs change what is done, never what is believed.
  expect(dear.candidates.map(({ probability }) => probability)).toEqual(
    plain.candidates.map(({ probability }) => probability),
  );
  await expect(saveCosts(ask, { costs: { ...COSTS, workPerHour: 0 } })).rejects.toThrow(
    'costs more than nothing',
  );
  const uncounted = { ...COSTS, parts: pricesOf(5000), isCounted: false };
  await saveCosts(ask, { costs: uncounted });
  expect((await ask('shop:read', {})).costs).toEqual(uncounted);
  const inMinutes = await open();
  expect(inMinutes.money).toBeNull();
  expect(inMinutes.remedies.map(({ id, price }) => [id, price])).toEqual(
    plain.remedies.map(({ id }) => [id, null]),
  );
  const why = () =>
    ask('case:why-check', {
      caseId: plain.caseId,
      observation: plain.otherChecks[0]?.observation ?? '',
    });
  // The next step costs what acting now costs, or, where it is a check, a little less.
  expect((await why()).expectedCostNow).toBeGreaterThanOrEqual(
    (plain.next?.expectedCostOfRepair ?? NaN) - 1e-6,
  );
  await saveCosts(ask, { costs: { ...uncounted, isCounted: true } });
  expect((await why()).expectedCostNow).toBeGreaterThan(plain.next?.expectedCostOfRepair ?? NaN);
  expect((await saveCosts(ask, { costs: null })).costs).toBeNull();
  expect((await open()).remedies[0]?.id).toBe(first?.id);
});
