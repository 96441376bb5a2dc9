import { describe, expect, it } from 'vitest';
import { FIRST_DISPLAY, type Display } from '../../src-core/contract/display-choices.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import { DisplaySettings } from '../../src-renderer/display/display-settings.svelte.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { memoryStore, scriptedHost } from './scripted-host.ts';

const shown = ({ theme, temperatureUnit }: DisplaySettings): Display => ({ theme, temperatureUnit });
const DARK = { theme: 'dark', temperatureUnit: '°F' } as const;

describe('theme and temperature unit', () => {
  it('are read off the page, and what stands there that cannot be means nothing', () => {
    const marks = { theme: 'dark', temperatureUnit: '°F', displayRevision: '3' };
    expect(shown(new DisplaySettings(marks))).toEqual(DARK);
    expect(shown(new DisplaySettings({ theme: 'pink', temperatureUnit: 'K' }))).toEqual(FIRST_DISPLAY);
  });

  it('hold for the whole shop: the next screen shows them, and one that knew less is told and follows', async () => {
    const { dispatcher, ask } = await programInMemory();
    const [first, second] = [new DisplaySettings({}), new DisplaySettings({})];
    expect(await first.choose(dispatcher, { theme: 'dark' })).toBe('');
    expect(await first.choose(dispatcher, { temperatureUnit: '°F' })).toBe('');
    expect((await ask('shop:read', {})).display).toEqual(DARK);
    expect(await second.choose(dispatcher, { theme: 'light' })).toMatch(/changed at another screen/);
    expect(shown(second)).toEqual(DARK);
    expect(await second.choose(dispatcher, { theme: 'light' })).toBe('');
    expect((await ask('shop:read', {})).display.theme).toBe('light');
    await first.read(dispatcher);
    expect(first.theme).toBe('light');
  });

  it('stay as chosen when a reading that was under way comes late, or a second choice follows at once', async () => {
    const { dispatcher, ask } = await programInMemory();
    let letGo: () => void = () => undefined;
    const held = new Promise<void>((resolve) => (letGo = resolve));
    const slow: HostApi = {
      call: async (name, input) => {
        const reply = await dispatcher.call(name, input);
        if (name === 'shop:read') await held;
        return reply;
      },
    };
    const settings = new DisplaySettings({});
    const reading = settings.read(slow);
    const choosing = [
      settings.choose(slow, { theme: 'dark' }),
      settings.choose(slow, { temperatureUnit: '°F' }),
    ];
    expect(shown(settings)).toEqual(DARK);
    letGo();
    await reading;
    expect(shown(settings)).toEqual(DARK);
    expect(await Promise.all(choosing)).toEqual(['', '']);
    expect(shown(settings)).toEqual(DARK);
    expect((await ask('shop:read', {})).display).toEqual(DARK);
  });

  it('last as long as the page where the casebook cannot keep them', async () => {
    const { host } = scriptedHost(() => ({
      ok: false,
      error: { code: 'casebook-unavailable', message: 'it is in use' },
    }));
    const settings = new DisplaySettings({});
    expect(await settings.choose(host, DARK)).toBe('It lasts as long as this page: it is in use');
    expect(shown(settings)).toEqual(DARK);
  });

  it('that could not be kept are tried again with the next choice', async () => {
    const { dispatcher, ask } = await programInMemory();
    let isAway = true;
    const host: HostApi = {
      call: (name, input) =>
        isAway && name === 'shop:save-display'
          ? Promise.resolve({ ok: false, error: { code: 'casebook-unavailable', message: 'it is in use' } })
          : dispatcher.call(name, input),
    };
    const settings = new DisplaySettings({});
    await settings.choose(host, { theme: 'light' });
    await settings.choose(host, { theme: 'dark' });
    expect(shown(settings)).toEqual({ ...DARK, temperatureUnit: '°C' });
    isAway = false;
    expect(await settings.choose(host, { temperatureUnit: '°F' })).toBe('');
    expect((await ask('shop:read', {})).display).toEqual(DARK);
    expect(await settings.choose(host, { theme: 'light' })).toBe('');
    expect(settings.theme).toBe('light');
  });

  it('that an earlier version kept in the browser are taken over once, where the shop has said nothing', async () => {
    const { dispatcher, ask } = await programInMemory();
    const store = memoryStore();
    store.setItem('beadwright.display', JSON.stringify({ theme: 'dark', temperatureUnit: '°F' }));
    await new DisplaySettings({}).takeOver(dispatcher, store);
    expect((await ask('shop:read', {})).display).toEqual(DARK);
    expect(store.length).toBe(0);

    store.setItem('beadwright.display', JSON.stringify({ theme: 'light' }));
    await new DisplaySettings({ displayRevision: '1' }).takeOver(dispatcher, store);
    expect((await ask('shop:read', {})).display).toEqual(DARK);
    expect(store.length).toBe(0);
  });
});
