import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  factorsOf,
  GUIDE_WEIGHT_CASES,
  ownExperience,
  printerExperience,
  SHOP_WEIGHT_CASES,
  type ConfirmedCase,
} from '../../src-core/learning/own-experience.ts';
import { CAUSE_NOT_IN_GUIDE } from '../../src-core/knowledge/compile.ts';
import { rankCauses } from '../../src-core/session/reason-about.ts';
import { whyCandidate } from '../../src-core/session/why.ts';
import { circumstanceTexts } from '../../src-core/words/en/circumstances.ts';
import { contextOfCase } from '../../src-main/command/diagnose.ts';
import { readCaseFile } from '../../src-main/command/case-file.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const caseOf = (cause: string, printerId: string | null = null, conditions = {}): ConfirmedCase => ({
  printerId,
  causes: [cause],
  conditions,
});
const of = (rows: ReturnType<typeof ownExperience>, cause: string) => {
  const found = rows.find((one) => one.cause === cause);
  if (!found) throw new Error(`no row for ${cause}`);
  return found;
};

describe('what a shop’s own cases say', () => {
  it('leaves the guide as it is while nothing is closed', () => {
    const rows = ownExperience(knowledge, []);
    expect(rows.every(({ timesOdds }) => timesOdds === 1)).toBe(true);
    expect(rows.some(({ cause }) => cause === CAUSE_NOT_IN_GUIDE)).toBe(false);
    expect(factorsOf(rows)).toEqual({});
  });

  it('is the mean of a gamma after Poisson counts (Gelman et al. 2013, 2.6), by hand', () => {
    const cases = Array.from({ length: 50 }, () => caseOf('wet-filament'));
    const row = of(ownExperience(knowledge, cases), 'wet-filament');
    const priors = knowledge.priorsUnder({}).priors;
    const unknown = knowledge.causeIndex.get(CAUSE_NOT_IN_GUIDE) ?? -1;
    const sum = priors.reduce((total, prior, index) => total + (index === unknown ? 0 : prior), 0);
    const expected = (50 * (priors[knowledge.causeIndex.get('wet-filament') ?? -1] ?? 0)) / sum;
    expect(row.confirmed).toBe(50);
    expect(row.expected).toBeCloseTo(expected, 9);
    expect(row.timesOdds).toBeCloseTo((GUIDE_WEIGHT_CASES + 50) / (GUIDE_WEIGHT_CASES + expected), 9);
    expect(row.low).toBeLessThan(row.timesOdds);
    expect(row.high).toBeGreaterThan(row.timesOdds);
  });

  it('expects as many cases as there are, spread over the causes, whatever the circumstances', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            cause: fc.constantFrom('wet-filament', 'partial-nozzle-clog', 'plate-dirty'),
            polymer: fc.constantFrom('pla', 'tpu', 'pa6'),
          }),
          { minLength: 1, maxLength: 30 },
        ),
        (drawn) => {
          const rows = ownExperience(
            knowledge,
            drawn.map(({ cause, polymer }) => caseOf(cause, null, { polymer })),
          );
          const total = rows.reduce((sum, { expected }) => sum + expected, 0);
          expect(total).toBeCloseTo(drawn.length, 6);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('does not count a circumstance twice: where the guide expects a cause, meeting it says less', () => {
    const dry = Array.from({ length: 20 }, () => caseOf('wet-filament', null, { polymer: 'pla' }));
    const thirsty = Array.from({ length: 20 }, () =>
      caseOf('wet-filament', null, { polymer: 'pa6', storage: 'open' }),
    );
    const after = (cases: readonly ConfirmedCase[]) => of(ownExperience(knowledge, cases), 'wet-filament');
    expect(after(thirsty).expected).toBeGreaterThan(after(dry).expected);
    expect(after(thirsty).timesOdds).toBeLessThan(after(dry).timesOdds);
  });

  it('passes over what was named by hand or is not in this guide', () => {
    const rows = ownExperience(knowledge, [
      { printerId: null, causes: ['gone-with-an-old-guide'], conditions: {} },
    ]);
    expect(rows.every(({ expected, timesOdds }) => expected === 0 && timesOdds === 1)).toBe(true);
  });

  it('a printer leans on the shop until it has cases of its own', () => {
    const shop = Array.from({ length: 40 }, () => caseOf('plate-dirty', 'a'));
    const whole = of(ownExperience(knowledge, shop), 'plate-dirty');
    const other = of(printerExperience(knowledge, shop, 'b'), 'plate-dirty');
    expect(other.timesOdds).toBeCloseTo(whole.timesOdds, 9);
    const own = of(printerExperience(knowledge, shop, 'a'), 'plate-dirty');
    expect(own.timesOdds).toBeCloseTo(
      (SHOP_WEIGHT_CASES + 40) / (SHOP_WEIGHT_CASES / whole.timesOdds + own.expected),
      9,
    );
  });

  it('two causes that were always seen together both count', () => {
    const rows = ownExperience(
      knowledge,
      Array.from({ length: 10 }, () => ({
        ...caseOf('plate-dirty'),
        causes: ['plate-dirty', 'nozzle-too-far'],
      })),
    );
    expect(of(rows, 'plate-dirty').confirmed).toBe(10);
    expect(of(rows, 'nozzle-too-far').confirmed).toBe(10);
  });
});

describe('a case opened with own experience', () => {
  const read = readCaseFile(
    JSON.stringify({
      conditions: { polymer: 'pla' },
      findings: { 'poor-first-layer': 'present' },
      tried: [],
    }),
    'case.json',
    knowledge,
  );
  if (!read.ok) throw new Error('the case file cannot be read');
  const plain = contextOfCase(knowledge, read.caseFile);
  const intake = { printerId: null, spoolId: null, openedBy: null, conditions: {}, words: '' };
  const withOwn = (ownExperience: Record<string, number>) => ({
    ...plain,
    intake: { ...intake, complaints: [], ...plain.intake, ownExperience },
  });
  const chance = (context: typeof plain, cause: string) =>
    rankCauses(knowledge, context).find((one) => one.cause === cause)?.probability ?? 0;

  it('ranks the cause that the shop meets more often higher, and says so in the reasons', () => {
    const own = withOwn({ 'plate-warped': 5 });
    expect(chance(own, 'plate-warped')).toBeGreaterThan(2 * chance(plain, 'plate-warped'));
    const why = whyCandidate(knowledge, own, 'plate-warped');
    expect(why.shifts).toContainEqual(
      expect.objectContaining({ timesOdds: 5, because: circumstanceTexts.m.ownClosedCases() }),
    );
  });

  it('is as it was where the cause is not in the guide any more', () => {
    expect(rankCauses(knowledge, withOwn({ 'gone-with-an-old-guide': 9 }))).toEqual(
      rankCauses(knowledge, plain),
    );
  });
});
