import { describe, expect, it } from 'vitest';
import type { ShopCosts } from '../../src-core/contract/shop-costs.ts';
import { CostsForm } from '../../src-renderer/screens/shop/costs-form.svelte.ts';
import { programInMemory, saveCosts } from '../operations/program-in-memory.ts';

const PARTS = ['fan', 'nozzle'];
const STORED: ShopCosts = {
  currency: 'Taler',
  workPerHour: 30,
  standstillPerHour: 6,
  parts: { nozzle: 12.5 },
  isCounted: true,
};

describe('what things cost', () => {
  it('is still there after it was unticked, saved and read again', async () => {
    const { ask } = await programInMemory();
    await saveCosts(ask, { costs: STORED });
    const form = new CostsForm(PARTS, (await ask('shop:read', {})).costs);
    form.isCounted = false;
    expect(form.fault).toBeNull();
    await saveCosts(ask, { costs: form.toCosts() });
    const again = new CostsForm(PARTS, (await ask('shop:read', {})).costs);
    expect(again.isCounted).toBe(false);
    again.isCounted = true;
    expect(again.toCosts()).toEqual(STORED);
  });

  it('counts where it was stored before it could be unticked', async () => {
    const { ask } = await programInMemory();
    const { currency, workPerHour, standstillPerHour, parts } = STORED;
    const shop = await saveCosts(ask, {
      costs: { currency, workPerHour, standstillPerHour, parts },
    });
    expect(shop.costs).toEqual(STORED);
  });

  it('keeps the price of a part that today’s guide does not name', () => {
    const form = new CostsForm(['fan'], STORED);
    form.prices['fan'] = '8,20';
    expect(form.toCosts()?.parts).toEqual({ nozzle: 12.5, fan: 8.2 });
  });

  it('is nothing where nothing is entered, and only while it is not counted', () => {
    const form = new CostsForm(PARTS, null);
    expect([form.isCounted, form.fault, form.toCosts()]).toEqual([false, null, null]);
    form.isCounted = true;
    expect(form.fault).toMatch(/money is called/);
  });

  it.each([
    ['currency', ' ', /money is called/],
    ['workPerHour', '0', /more than nothing/],
    ['workPerHour', '', /An hour of work: Enter a number in Taler an hour/],
    ['standstillPerHour', 'x', /machine standing: .* It is 0 where/],
  ] as const)('says what is wrong with %s %j, counted or not', (field, text, words) => {
    for (const isCounted of [true, false]) {
      const form = new CostsForm(PARTS, { ...STORED, isCounted });
      form[field] = text;
      expect(form.fault).toMatch(words);
    }
  });

  it('names the part whose price is no number', () => {
    const form = new CostsForm(PARTS, STORED);
    form.prices['fan'] = '12 Taler';
    expect(form.fault).toBe('Fan: Enter a number in Taler.');
  });
});
