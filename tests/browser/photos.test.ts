import path from 'node:path';
import { deflateSync, crc32 } from 'node:zlib';
import { expect, it, onTestFinished } from 'vitest';
import { startStationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { go } from './go.ts';
import { complaintsOf, openBrowser } from './open-browser.ts';

/** A plain picture as a camera might send it: large, and no JPEG. */
function png(width: number, height: number): Buffer {
  const chunk = (kind: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(kind), data]);
    const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    sum.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, sum]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  // Eight bits of grey a pixel, each row after a filter byte.
  head.set([8, 0, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from('89504e470d0a1a0a', 'hex'),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.alloc((width + 1) * height))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

it('a photo taken on a phone is made smaller, stands in the trail and the timeline, opens large, and Back closes it', async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  onTestFinished(() => station.stop());
  const opened = await station.call('case:open', {
    complaints: [{ observation: 'stringing', value: 'slight' }],
  });
  if (!opened.ok) throw new Error(opened.error.message);
  const { caseId } = opened.value;
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  const complaints = complaintsOf(page);
  await go(page, `${station.address}#/case/${caseId}`);
  const adding = page.getByLabel('Add a photo');
  await adding.setInputFiles({ name: 'part.png', mimeType: 'image/png', buffer: png(3000, 1500) });
  const small = page.getByRole('button', { name: /^Photo, .*larger$/ });
  await small.scrollIntoViewIfNeeded();
  const size = await small
    .locator('img')
    .evaluate(
      async (image: HTMLImageElement) => (await image.decode(), [image.naturalWidth, image.naturalHeight]),
    );
  expect(size).toEqual([1600, 800]);

  await small.click();
  const sheet = page.getByRole('dialog', { name: /^Photo/ });
  await sheet.waitFor();
  await page.goBack();
  await sheet.waitFor({ state: 'detached' });
  expect(page.url()).toContain(caseId);
  await expect
    .poll(() => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth))
    .toBe(0);

  await adding.setInputFiles({
    name: 'notes.txt',
    mimeType: 'text/plain',
    buffer: Buffer.from('no picture'),
  });
  await page.getByRole('alert').getByText('cannot read that picture').waitFor();

  await go(page, `${station.address}#/timeline/${caseId}`);
  await page.getByRole('button', { name: /^Photo, .*larger$/ }).waitFor();
  expect(complaints).toEqual([]);
});
