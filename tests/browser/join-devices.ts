import { createHash } from 'node:crypto';
import { once } from 'node:events';
import tls from 'node:tls';
import type { Page } from 'playwright-core';
import { expect, onTestFinished } from 'vitest';
import { ended } from '../processes/ended.ts';
import { launchStation, type StationProcess } from '../processes/launch-station.ts';
import type { Windows } from './open-browser.ts';

/** A station whose door to the network is at this port of the loopback address, over plain HTTP by an explicit word. */
export function openStation(
  file: string,
  own: number,
  port: number,
  environment: Readonly<Record<string, string>> = {},
): Promise<StationProcess> {
  return launchStation(file, (child) => onTestFinished(() => ended(child, 'SIGKILL')), own, undefined, {
    BEADWRIGHT_LISTEN: `127.0.0.1:${port}`,
    BEADWRIGHT_PLAIN_HTTP: '1',
    ...environment,
  });
}

/** What lets a browser take the certificate that is shown at a port, as a device does that has installed the station's root. */
export async function trusting(port: number): Promise<string> {
  const socket = tls.connect({ host: '127.0.0.1', port, rejectUnauthorized: false });
  await once(socket, 'secureConnect');
  const der = socket.getPeerX509Certificate()?.publicKey.export({ type: 'spki', format: 'der' });
  socket.destroy();
  if (!der) throw new Error(`no certificate at port ${port}`);
  return `--ignore-certificate-errors-spki-list=${createHash('sha256').update(der).digest('base64')}`;
}

/** The lead makes a code at the station and reads it off the screen. */
export async function codeFor(
  lead: Page,
  device: { label: string; role: string; opensWith: string },
): Promise<string> {
  const form = lead.getByRole('region', { name: 'Let a device in' });
  await form.getByLabel('Opens with').selectOption({ label: device.opensWith });
  await form.getByLabel('Called').fill(device.label);
  await form.getByLabel('Works as').selectOption({ label: device.role });
  const before = await form.locator('.signs').allInnerTexts();
  await form.getByRole('button', { name: 'Make a code' }).click();
  const signs = form.locator('.signs');
  await signs.waitFor();
  await expect.poll(() => signs.innerText()).not.toBe(before[0]);
  return signs.innerText();
}

/** A new device with a browser of its own, let in by the code. */
export async function join(browser: Windows, door: string, code: string, isTyped: boolean): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await context.newPage();
  await page.goto(isTyped ? `${door}/` : `${door}/join?code=${code}`);
  if (isTyped) {
    await page.getByRole('link', { name: 'join with a code' }).click();
    await page.getByLabel('Code for this device').fill(code.toLowerCase().replace('-', ' '));
  }
  await page.getByRole('button', { name: 'Join' }).click();
  await page.getByRole('navigation', { name: 'Places' }).waitFor();
  return page;
}
