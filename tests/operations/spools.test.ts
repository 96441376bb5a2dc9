import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import type { SpoolEvent } from '../../src-core/contract/spool-life.ts';
import { speak } from '../../src-renderer/messages/language.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';
import { wordsIn } from '../../src-renderer/wording/words-in.ts';
import { logSpool, programInMemory } from './program-in-memory.ts';

const open: SpoolEvent = { kind: 'moved', place: 'open', desiccant: 'fresh', temperatureC: null };

async function withSpool() {
  const test = await programInMemory();
  const shop = await test.ask('shop:save-spool', { label: 'A-1', polymer: 'abs' });
  const spoolId = shop.spools[0]?.id ?? '';
  return { ...test, spoolId };
}

describe('a spool on the shelf', () => {
  it('is logged with one tap, and the tap can be taken back', async () => {
    const { ask, spoolId, pass } = await withSpool();
    expect(inEnglish((await ask('spool:read', { spoolId })).silence ?? '')).toMatch(/Log where the spool is/);
    await logSpool(ask, { spoolId, event: open });
    pass(7 * 24 * 60);
    const report = await ask('spool:read', { spoolId, flowMm3PerS: 20 });
    expect(report.place?.label).toBe('Open in the room');
    expect(report.water?.outer.likely).toBeGreaterThan(0.1);
    expect(report.drying).not.toBeNull();
    const taken = await logSpool(ask, { spoolId, event: { kind: 'undone' } });
    expect(taken.place).toBeNull();
    expect(taken.canUndo).toBe(false);
    expect(taken.log).toMatchObject([{ isUndone: true }]);
    await expect(logSpool(ask, { spoolId, event: { kind: 'undone' } })).rejects.toThrow(
      'nothing to take back',
    );
  });

  it('says what was logged, what it is of and where it is in the language and the unit of the reader', async () => {
    const { ask } = await programInMemory();
    const { printers } = await ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 0 });
    const { spools } = await ask('shop:save-spool', {
      label: 'A-1',
      polymer: 'abs',
      filler: 'carbon-fibre',
      fillerPercent: 15,
    });
    const spoolId = spools[0]?.id ?? '';
    const events: SpoolEvent[] = [
      { ...open, place: 'dryer', temperatureC: 70 },
      { ...open, place: 'tub', desiccant: 'spent' },
      { ...open, place: 'on-printer', printerId: printers[0]?.id ?? '' },
      { kind: 'weighed', filamentGramsBefore: 501, filamentGramsAfter: 500 },
      { kind: 'grams-left', grossGrams: 700, tareGrams: 200 },
    ];
    for (const event of events) await logSpool(ask, { spoolId, event });
    const { log, material, place } = await ask('spool:read', { spoolId });
    expect(log.map(({ text }) => inEnglish(text))).toEqual([
      'In the dryer at 70 °C',
      'Gasketed tub with desiccant, spent',
      'On Heron',
      'Lost 1.0 g in drying: it had held 0.20 % water',
      '500 g left',
    ]);
    expect(inEnglish(material)).toBe('ABS, carbon fibre 15 %');
    expect(inEnglish(place?.label ?? '')).toBe('On Heron');
    speak(
      'de',
      { 'spoolLog.onPrinter': 'auf {printer}', 'spoolLog.atTemperature': '{place}, {temperature}' },
      parse,
    );
    expect(log.map(({ text }) => wordsIn(text, '°F')).slice(0, 3)).toEqual([
      'In the dryer, 158 °F',
      'Gasketed tub with desiccant, spent',
      'auf Heron',
    ]);
    speak('en', {}, parse);
  });

  it('refuses what cannot be', async () => {
    const { ask, spoolId } = await withSpool();
    const tomorrow = '2026-03-03T08:00:00.000Z';
    await expect(logSpool(ask, { spoolId, event: open, at: tomorrow })).rejects.toThrow('has not come yet');
    await expect(logSpool(ask, { spoolId, event: { ...open, place: 'attic' } })).rejects.toThrow(
      'no place "attic"',
    );
    await logSpool(ask, { spoolId, event: open });
    const earlier = '2026-03-01T08:00:00.000Z';
    await expect(logSpool(ask, { spoolId, event: open, at: earlier })).rejects.toThrow('newest entry');
    const heavier: SpoolEvent = { kind: 'weighed', filamentGramsBefore: 500, filamentGramsAfter: 510 };
    await expect(logSpool(ask, { spoolId, event: heavier })).rejects.toThrow('cannot weigh more');
  });

  it('brings its water into a case, with the reason, and moves the odds', async () => {
    const { ask, spoolId, pass } = await withSpool();
    await logSpool(ask, { spoolId, event: open });
    pass(14 * 24 * 60);
    const open8 = await ask('case:open', {
      spoolId,
      conditions: { 'nozzle-mm': 0.8 },
      complaints: [{ observation: 'stringing', value: 'slight' }],
    });
    const water = open8.conditions.find(({ id }) => id === 'spool-water');
    expect(water?.value).toMatch(/over-limit/);
    expect(inEnglish(water?.because ?? '')).toMatch(
      /about 0\.\d+ % water .* A print at 20 mm³\/s bears about 0\.\d+ %/,
    );
    const said = await ask('case:open', {
      spoolId,
      conditions: { 'nozzle-mm': 0.8, 'spool-water': 'dry' },
      complaints: [{ observation: 'stringing', value: 'slight' }],
    });
    expect(said.conditions.find(({ id }) => id === 'spool-water')).toMatchObject({
      value: 'dry',
      because: null,
    });
    const chance = (view: typeof said) =>
      view.candidates.find(({ cause }) => cause === 'wet-filament')?.probability ?? 0;
    expect(chance(open8)).toBeGreaterThan(3 * chance(said));
    // What the spool's water says already is not counted again through nozzle and storage.
    const why = await ask('case:why-candidate', { caseId: open8.caseId, cause: 'wet-filament' });
    expect(why.shifts.map(({ because }) => inEnglish(because)).join()).not.toMatch(/larger nozzle/);
  });

  it('fills the drying remedy with numbers for this spool', async () => {
    const { ask, spoolId, pass } = await withSpool();
    await logSpool(ask, { spoolId, event: open });
    pass(30 * 24 * 60);
    const complaints = [{ observation: 'popping-while-loading', value: 'heavy' }];
    const step = async (spool: string | null) => {
      const opened = await ask('case:open', {
        spoolId: spool,
        conditions: { polymer: 'abs', 'nozzle-mm': 0.8 },
        complaints,
      });
      const { caseId } = opened;
      await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
      const view = await ask('case:send', {
        caseId,
        revision: 2,
        event: { kind: 'remedy-chosen', remedy: 'dry-the-spool' },
      });
      return view.remedy?.steps.map(({ text }) => inEnglish(text)).join(' ') ?? '';
    };
    expect(await step(spoolId)).toMatch(/Dry for \d+ to (more than )?\d+ h, worked out for this spool/);
    expect(await step(null)).not.toContain('this spool');
  });

  it('knows the air of the shop once it is told', async () => {
    const { ask } = await withSpool();
    expect((await ask('shop:read', {})).climate).toEqual({ kind: 'unknown' });
    const climate = { kind: 'measured', temperatureC: 24, percentRh: 61 } as const;
    expect((await ask('shop:save-climate', { climate, revision: 0 })).climate).toEqual(climate);
    expect((await ask('shop:read', {})).climate).toEqual(climate);
  });
});

describe('keeping a spool dry', () => {
  const tub = { barrier: 'foil-laminate', areaM2: 0.4, airLitre: 8, months: 12, desiccantG: 50 };

  it('says how much desiccant it takes and how long it lasts', async () => {
    const { ask, spoolId } = await withSpool();
    const foil = await ask('spool:storage', { spoolId, ...tub });
    const film = await ask('spool:storage', { spoolId, ...tub, barrier: 'ldpe-bag-0-1-mm' });
    expect(foil.units).toBe(1);
    expect(film.units).toBeGreaterThan(10 * foil.units);
    expect(film.monthsUntilDamp ?? Infinity).toBeLessThan(foil.monthsUntilDamp ?? Infinity);
    expect(foil.cautions.map(({ id }) => id)).toContain('desiccant-dust');
    await expect(ask('spool:storage', { spoolId, ...tub, barrier: 'sieve' })).rejects.toThrow(
      'no wall "sieve"',
    );
  });
});

describe('B1: two hands on one spool', () => {
  it('at once, and neither knows of the other: both are logged, or one is told, never a fault of the program', async () => {
    const { ask, dispatcher, spoolId } = await withSpool();
    const bag: SpoolEvent = { ...open, place: 'on-printer' };
    const replies = await Promise.all(
      [open, bag].map((event) => dispatcher.call('spool:log', { spoolId, event, revision: 0 })),
    );
    for (const reply of replies) if (!reply.ok) expect(reply.error.code).toBe('stale');
    const logged = replies.filter(({ ok }) => ok).length;
    expect((await ask('spool:read', { spoolId })).log).toHaveLength(logged);
    expect(logged).toBeGreaterThan(0);
  });

  it('a second press on the same page writes nothing twice and shows what stands there', async () => {
    const { ask, dispatcher, spoolId } = await withSpool();
    const { revision } = await ask('spool:read', { spoolId });
    const first = await ask('spool:log', { spoolId, event: open, revision });
    expect(first.revision).toBe(revision + 1);
    const second = await dispatcher.call('spool:log', { spoolId, event: open, revision });
    expect(second).toMatchObject({
      ok: false,
      error: { code: 'stale', current: { revision: revision + 1 } },
    });
    expect((await ask('spool:read', { spoolId })).log).toHaveLength(1);
  });
});

describe('attack 9: a mistyped year', () => {
  it('is refused before anything is stored', async () => {
    const { ask, spoolId } = await withSpool();
    await expect(logSpool(ask, { spoolId, event: open, at: '0026-03-01T08:00:00.000Z' })).rejects.toThrow(
      'year 0026',
    );
    expect((await ask('spool:read', { spoolId })).log).toEqual([]);
  });

  it('stored by an earlier version: the page opens and says so, cases open, and the entry can be taken back', async () => {
    const { ask, program, spoolId } = await withSpool();
    await program.casebook.db
      .insertInto('spool_events')
      .values({ spool_id: spoolId, seq: 1, at: '0026-03-01T08:00:00.000Z', event_json: JSON.stringify(open) })
      .execute();
    const report = await ask('spool:read', { spoolId });
    expect(inEnglish(report.silence ?? '')).toMatch(/cannot be worked out.*Take back/);
    const view = await ask('case:open', {
      spoolId,
      complaints: [{ observation: 'stringing', value: 'slight' }],
    });
    expect(view.state).toBe('stop-now');
    const taken = await ask('spool:log', { spoolId, event: { kind: 'undone' }, revision: report.revision });
    expect(inEnglish(taken.silence ?? '')).toMatch(/Log where the spool is/);
  });

  it('an entry that this version cannot read is shown as such and keeps nothing else from working', async () => {
    const { ask, program, spoolId } = await withSpool();
    const row = { spool_id: spoolId, seq: 1, at: '2026-03-01T08:00:00.000Z' };
    await program.casebook.db
      .insertInto('spool_events')
      .values({ ...row, event_json: '{"kind":"of-tomorrow"}' })
      .execute();
    const { log } = await ask('spool:read', { spoolId });
    expect(log.map(({ seq, text }) => [seq, inEnglish(text)])).toEqual([
      [1, 'Cannot be read by this version, and is set aside'],
    ]);
    expect((await logSpool(ask, { spoolId, event: open })).log).toHaveLength(2);
  });

  it.each([
    ['spool:read', { targetPercent: 5e-324 }],
    ['spool:storage', { barrier: 'foil-laminate', areaM2: 1e-320, airLitre: 8, months: 12, desiccantG: 50 }],
  ] as const)('%s with a figure past all reckoning is refused in words', async (name, figures) => {
    const { dispatcher, spoolId } = await withSpool();
    const reply = await dispatcher.dispatch(name, { spoolId, ...figures });
    expect(reply).toMatchObject({ ok: false, error: { code: 'bad-request' } });
  });
});
