import { expect, it, onTestFinished } from 'vitest';
import { sharedStation } from './shared-station.ts';

const open = sharedStation();
const PAPER = { light: 'rgb(244, 242, 236)', dark: 'rgb(27, 31, 37)' };

it('a page is in the shop’s theme and unit before any script has run, on every screen, with nothing kept in the browser', async () => {
  const { station, page, complaints } = await open();
  const paperWithoutScript = async (colorScheme: 'light' | 'dark') => {
    const context = await page.context().browser()?.newContext({ javaScriptEnabled: false, colorScheme });
    if (!context) throw new Error('no browser');
    onTestFinished(() => context.close());
    const bare = await context.newPage();
    await bare.goto(station.address);
    return bare.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  };
  // As the system, while nobody has said.
  expect(await paperWithoutScript('dark')).toBe(PAPER.dark);
  expect(await paperWithoutScript('light')).toBe(PAPER.light);

  await page.goto(`${station.address}#/settings`);
  await page.getByRole('radio', { name: 'Dark' }).check();
  await page.getByRole('radio', { name: '°F' }).check();
  await expect
    .poll(async () => {
      const shop = await station.call('shop:read', {});
      return shop.ok && shop.value.display;
    })
    .toEqual({ theme: 'dark', temperatureUnit: '°F' });
  await expect.poll(() => page.evaluate(() => window.localStorage.length)).toBe(0);
  expect(await paperWithoutScript('light')).toBe(PAPER.dark);

  const elsewhere = await open();
  await elsewhere.page.goto(`${station.address}#/shop`);
  await elsewhere.page.getByLabel('How well it is known').selectOption('measured');
  await elsewhere.page.getByLabel('Temperature, °F').waitFor();
  expect([...complaints, ...elsewhere.complaints]).toEqual([]);
});
