import { describe, expect, it } from 'vitest';
import type { SpoolReport } from '../../src-core/contract/spool-life.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { logSpool, programInMemory } from './program-in-memory.ts';

const polymers = [...(shippedKnowledge().conditions.get('polymer')?.values ?? [])].map(({ id }) => id);
const complaint = { observation: 'stringing', value: 'slight' };
const WEEKS_AGO = '2026-02-10T08:00:00.000Z';

describe('one recipe for the same spool, nozzle and flow', () => {
  it('the guide has polymers to dry', () => {
    expect(polymers.length).toBeGreaterThan(15);
  });

  it.each(polymers)(
    '%s: the remedy says what the spool\u2019s page and label say',
    async (polymer) => {
      const { ask } = await programInMemory();
      for (const [nozzle, body] of [
        [0.4, 'plastic'],
        [0.8, 'cardboard'],
      ] as const) {
        const shop = await ask('shop:save-spool', {
          label: `${polymer} ${nozzle}`,
          polymer,
          body,
          storage: 'open',
          openedAt: WEEKS_AGO,
        });
        const spoolId = shop.spools.find(({ label }) => label === `${polymer} ${nozzle}`)?.id ?? '';
        const { recipe }: SpoolReport = await ask('spool:read', {
          spoolId,
          nozzleMm: nozzle,
        });
        let view = await ask('case:open', {
          spoolId,
          conditions: { 'nozzle-mm': nozzle },
          complaints: [complaint],
        });
        const { caseId } = view;
        await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
        view = await ask('case:send', {
          caseId,
          revision: 2,
          event: { kind: 'remedy-chosen', remedy: 'dry-the-spool' },
        });
        const steps = view.remedy?.steps.map(({ text }) => inEnglish(text)).join(' ') ?? '';
        expect(steps).toContain(inEnglish(recipe.temperature));
        expect(steps).toContain(inEnglish(recipe.hours));
      }
    },
    120_000,
  );
});

describe('what a spool\u2019s page says first', () => {
  const open = { kind: 'moved', place: 'open', desiccant: 'fresh', temperatureC: null } as const;

  async function spool() {
    const test = await programInMemory();
    const shop = await test.ask('shop:save-spool', {
      label: 'A-1',
      polymer: 'abs',
      tareGrams: 210,
      batch: 'L7',
    });
    return { ...test, spoolId: shop.spools[0]?.id ?? '' };
  }

  it('is not known before anything is logged, fit when just opened, dry first after weeks in the open', async () => {
    const { ask, pass, spoolId } = await spool();
    expect((await ask('spool:read', { spoolId })).standing).toBe('not-known');
    await logSpool(ask, { spoolId, event: open });
    pass(30);
    expect((await ask('spool:read', { spoolId })).standing).toBe('fit');
    // Between: a chance of defects that nobody would call fit.
    const standings = new Set<string>();
    for (let step = 0; step < 8; step++) {
      pass(2 * 60);
      const report = await ask('spool:read', { spoolId, flowMm3PerS: 20 });
      standings.add(report.standing);
      const chance = report.water?.chanceOverLimit ?? NaN;
      expect(report.standing, `${chance}`).toBe(
        chance < 0.15 ? 'fit' : chance < 0.5 ? 'near-limit' : 'dry-first',
      );
    }
    expect([...standings]).toEqual(['near-limit', 'dry-first']);
    const wet = await ask('spool:read', { spoolId, flowMm3PerS: 20 });
    expect(wet.standing).toBe('dry-first');
    const cannot = await ask('spool:read', { spoolId, flowMm3PerS: 20, dryerTemperatureC: 31 });
    expect(cannot.drying?.kind).toBe('cannot');
    expect(cannot.standing).toBe('do-not-use');
  });

  it('a case closed as wet filament marks the spool until it was dried; grams left come from two weights', async () => {
    const { ask, pass, spoolId } = await spool();
    await logSpool(ask, { spoolId, event: open });
    pass(30);
    const { caseId } = await ask('case:open', { spoolId, complaints: [complaint] });
    await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
    const causes = [{ cause: 'wet-filament' }];
    const closed = {
      kind: 'closed',
      causes,
      practice: null,
      minutesLost: 0,
      gramsScrapped: 0,
      note: '',
    } as const;
    await ask('case:send', { caseId, revision: 2, event: closed });
    const marked = await ask('spool:read', { spoolId });
    expect(marked.foundWet).toMatchObject({ caseId, number: 1 });
    expect(marked.standing).toBe('dry-first');

    pass(24 * 60);
    const reopened = { id: spoolId, label: 'A-1', polymer: 'abs', tareGrams: 210, batch: 'L7' };
    await ask('shop:save-spool', { ...reopened, revision: 1, openedAt: '2026-03-03T00:00:00.000Z' });
    expect((await ask('spool:read', { spoolId })).foundWet).toBeNull();
    await ask('shop:save-spool', { ...reopened, revision: 2 });
    await logSpool(ask, { spoolId, event: { ...open, place: 'dryer', temperatureC: 80 } });
    expect((await ask('spool:read', { spoolId })).foundWet).not.toBeNull();
    pass(8 * 60);
    const dried = await logSpool(ask, { spoolId, event: { ...open, place: 'tub' } });
    expect(dried.foundWet).toBeNull();
    expect(dried.standing).toBe('fit');
    expect(dried.lastDriedAt).toBe(dried.log.at(-1)?.at);

    const scales = { kind: 'grams-left', grossGrams: 640, tareGrams: 210 } as const;
    const weighed = await logSpool(ask, { spoolId, event: scales });
    expect(weighed).toMatchObject({ batch: 'L7', tareGrams: 210, gramsLeft: { grams: 430 } });
    expect(weighed.water?.outer.likely).toBeCloseTo(dried.water?.outer.likely ?? 0, 6);
    await expect(logSpool(ask, { spoolId, event: { ...scales, grossGrams: 200 } })).rejects.toThrow(
      /cannot weigh less/,
    );
  });
});
