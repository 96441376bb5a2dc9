import { inEnglish } from '../../src-core/words/in-english.ts';
import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { jpeg } from '../photos/jpeg.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { programInMemory, type TestProgram } from './program-in-memory.ts';

const complaint = { complaints: [{ observation: 'popping-while-loading', value: 'heavy' }] };
const base64 = jpeg().toString('base64');

async function caseWithPhoto(test: TestProgram) {
  const { caseId } = await test.ask('case:open', complaint);
  const { photo } = await test.ask('photo:keep', { base64 });
  const view = await test.ask('case:send', { caseId, revision: 1, event: { kind: 'photographed', photo } });
  return { caseId, photo, view };
}

it('a photo stands in the trail and the timeline at any step, moves no odds, and an undo takes it out', async () => {
  const test = await programInMemory();
  const { caseId, photo, view } = await caseWithPhoto(test);
  const before = await test.ask('case:view', { caseId });
  expect(view.trail.at(-1)).toMatchObject({
    kind: 'photographed',
    photo,
    text: { id: 'caseLog.photo' },
    isUndone: false,
  });
  expect(view.state).toBe('stop-now');
  const timeline = await test.ask('case:timeline', { caseId });
  expect(timeline.steps.at(-1)).toMatchObject({ photo });
  expect(timeline.steps[0]?.candidates).toEqual(timeline.steps[1]?.candidates);
  expect(before.candidates).toEqual(view.candidates);
  const undone = await test.ask('case:send', { caseId, revision: 2, event: { kind: 'undone' } });
  expect(undone.trail.at(-1)).toMatchObject({ photo, isUndone: true });
});

it('refuses what is no photo, a photo that is not kept, and more than a case can carry', async () => {
  const test = await programInMemory();
  const { caseId } = await test.ask('case:open', complaint);
  const page = Buffer.from('<svg onload="alert(1)">').toString('base64');
  await expect(test.ask('photo:keep', { base64: page })).rejects.toThrow(/bad-request.*no JPEG/);
  await expect(test.ask('photo:keep', { base64: 'not base 64' })).rejects.toThrow(/bad-request/);
  const unknown = { kind: 'photographed', photo: '0'.repeat(64) } as const;
  await expect(test.ask('case:send', { caseId, revision: 1, event: unknown })).rejects.toThrow(
    /not kept here/,
  );
  const { photo } = await test.ask('photo:keep', { base64 });
  for (let revision = 1; revision <= 24; revision++)
    await test.ask('case:send', { caseId, revision, event: { kind: 'photographed', photo } });
  await expect(
    test.ask('case:send', { caseId, revision: 25, event: { kind: 'photographed', photo } }),
  ).rejects.toThrow(/24 photos at most/);
});

it('lies beside the casebook by its hash, once; backups share it, and give it back when it is lost or damaged', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const test = await programInMemory({ file });
  const { photo } = await caseWithPhoto(test);
  await test.ask('photo:keep', { base64 });
  const kept = path.join(`${file}.photos`, `${photo}.jpg`);
  expect(readdirSync(`${file}.photos`)).toEqual([`${photo}.jpg`]);
  const { photos } = test.program.casebook;

  await test.ask('backup:make', {});
  await test.ask('backup:make', {});
  const backups = path.join(path.dirname(file), 'backups');
  expect(readdirSync(path.join(backups, 'photos'))).toEqual([`${photo}.jpg`]);
  expect((await test.ask('backup:list', {})).backups.length).toBeGreaterThanOrEqual(2);

  writeFileSync(kept, 'spoilt');
  expect((await photos.read(photo))?.equals(jpeg())).toBe(true);
  rmSync(`${file}.photos`, { recursive: true });
  expect((await photos.read(photo))?.equals(jpeg())).toBe(true);
  rmSync(path.join(backups, 'photos'), { recursive: true });
  expect(await photos.read(photo)).toBeNull();
  expect(await photos.read('../casebook')).toBeNull();
});

it('a restore keeps the photos of the cases it brings back', async () => {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  const test = await programInMemory({ file });
  const { caseId, photo } = await caseWithPhoto(test);
  const { name } = await test.ask('backup:make', {});
  test.pass(1);
  await test.ask('case:open', complaint);
  await test.ask('backup:restore', { name });
  const view = await test.ask('case:view', { caseId });
  expect(view.trail.at(-1)?.photo).toBe(photo);
  expect(await test.program.casebook.photos.read(photo)).not.toBeNull();
});

it('goes with its case from casebook to casebook; one that is not what it says is refused with its line', async () => {
  const from = await programInMemory();
  const { caseId, photo } = await caseWithPhoto(from);
  const { jsonLines } = await from.ask('case:export', {});

  const to = await programInMemory();
  expect(await to.ask('case:import', { jsonLines })).toMatchObject({ imported: 1, faults: [] });
  expect((await to.ask('case:view', { caseId })).trail.at(-1)?.photo).toBe(photo);
  expect((await to.program.casebook.photos.read(photo))?.equals(jpeg())).toBe(true);

  const wary = await programInMemory();
  const faultOf = async (lines: string) =>
    inEnglish((await wary.ask('case:import', { jsonLines: lines })).faults[0]?.message ?? '');
  const other = jsonLines.replace(base64, jpeg(320, 200).toString('base64'));
  expect(await faultOf(other)).toMatch(/not the one/);
  const spoilt = jsonLines.replace(base64, Buffer.from('<svg>').toString('base64'));
  expect(await faultOf(spoilt)).toMatch(/no JPEG/);
  expect(await wary.program.casebook.photos.read(photo)).toBeNull();
});
