import { describe, expect, it } from 'vitest';
import { FIRST_DISPLAY } from '../../src-core/contract/display-choices.ts';
import type { Printer, Shop, Spool } from '../../src-core/contract/shop-records.ts';
import {
  climateWords,
  costsChanges,
  printerChanges,
  spoolChanges,
} from '../../src-renderer/screens/shop/record-changes.ts';
import { ShopBook } from '../../src-renderer/screens/shop/shop-book.svelte.ts';
import { scriptedHost } from './scripted-host.ts';
import { shippedGuideBook } from './shipped-guide-book.ts';

const guide = shippedGuideBook();
const heron: Printer = {
  id: '01ARZ3NDEKTSV4RRFFQ69G5FAV',
  revision: 1,
  label: 'Heron',
  model: '',
  conditions: { 'nozzle-mm': 0.8 },
  printHours: 100,
  note: '',
  isRetired: false,
  isDemo: false,
  openCases: 0,
};
const spool: Spool = {
  id: '01ARZ3NDEKTSV4RRFFQ69G5FAW',
  revision: 1,
  label: 'A-1',
  polymer: 'abs',
  filler: 'none',
  fillerPercent: null,
  storage: null,
  openedAt: null,
  filamentDiameterMm: 1.75,
  filamentGrams: 1000,
  body: 'plastic',
  supplier: '',
  batch: 'L7',
  tareGrams: null,
  note: '',
  isRetired: false,
  isDemo: false,
};

describe('what another hand changed', () => {
  it('of a printer stands field by field, with what was added and taken away, and nothing else', () => {
    const now: Printer = {
      ...heron,
      revision: 2,
      label: 'Falcon',
      conditions: { 'room-humidity': 40 },
      printHours: 120,
      openCases: 3,
    };
    const [name, hours, nozzle, humidity, ...others] = printerChanges(heron, now, guide, '°C');
    expect([name, hours]).toEqual(['Name: Falcon', 'Print hours: 120']);
    expect(nozzle).toMatch(/^Nozzle.*: not set$/);
    expect(humidity).toContain('40');
    expect(others).toEqual([]);
    expect(printerChanges(heron, { ...heron, revision: 2 }, guide, '°C')).toEqual([]);
  });

  it('of a spool: the same', () => {
    const now: Spool = { ...spool, revision: 2, polymer: 'pla', batch: '', tareGrams: 210, isRetired: true };
    const found = spoolChanges(spool, now, guide, '°C');
    expect(found).toHaveLength(4);
    expect(found.join('; ')).toMatch(/Batch: not set.*Empty spool: 210 g.*: PLA.*Used up: yes/);
  });

  it('of the room air and the costs: the same', () => {
    const air = { kind: 'measured', temperatureC: 20, percentRh: 45 } as const;
    expect(climateWords(air, '°C')).toBe('Measured: 20 °C, 45 %');
    expect(climateWords(air, '°F')).toBe('Measured: 68 °F, 45 %');
    const costs = { currency: 'Taler', workPerHour: 30, standstillPerHour: 6, parts: {}, isCounted: true };
    const now = { ...costs, workPerHour: 32, parts: { nozzle: 12 } };
    expect(costsChanges(costs, now)).toEqual(['An hour of work: 32', 'Nozzle: 12']);
    expect(costsChanges(costs, null)).toContain('Money is called: not set');
  });
});

describe('B1, B2: the shop on a screen', () => {
  const shopWith = (printer: Printer): Shop => ({
    printers: [printer],
    spools: [],
    people: [],
    climate: { kind: 'unknown' },
    costs: null,
    display: FIRST_DISPLAY,
    revisions: { climate: 0, costs: 0, display: 0 },
    hasDemo: false,
  });

  it('shows what stands there now when a change came too late, and says why', async () => {
    const now = { ...heron, revision: 2, label: 'Falcon' };
    const { host, asked } = scriptedHost(({ name }) =>
      name === 'shop:read'
        ? { ok: true, value: shopWith(now) }
        : { ok: false, error: { code: 'stale', message: 'changed meanwhile', current: shopWith(now) } },
    );
    const book = new ShopBook(host);
    book.shop = shopWith(heron);
    const { id, revision, label, conditions, printHours } = heron;
    expect(await book.savePrinter({ id, revision, label, conditions, printHours })).toBe('changed meanwhile');
    expect(book.shop.printers).toEqual([now]);
    expect(asked.filter(({ name }) => name === 'shop:save-printer')).toHaveLength(1);
  });

  it('sends one change where Save is pressed twice', async () => {
    const { host, asked } = scriptedHost(() => ({ ok: true, value: shopWith(heron) }));
    const book = new ShopBook(host);
    const { label, conditions, printHours } = heron;
    const save = () => book.savePrinter({ label, conditions, printHours });
    await Promise.all([save(), save()]);
    expect(asked).toHaveLength(1);
  });
});
