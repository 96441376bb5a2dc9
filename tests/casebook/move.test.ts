import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { sql } from 'kysely';
import { afterAll, describe, expect, it, onTestFinished } from 'vitest';
import { moveCasebook } from '../../src-main/casebook/move/move-casebook.ts';
import {
  sourceInDatabase,
  sourceInFile,
  targetInDatabase,
  targetInFile,
} from '../../src-main/casebook/move/move-ends.ts';
import { MOVED_TABLES, sumOf } from '../../src-main/casebook/move/moved-tables.ts';
import { PostgresCasebook } from '../../src-main/casebook/postgres/postgres-casebook.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { jpeg } from '../photos/jpeg.ts';
import { hasPostgres, orWhyNot, testDatabase } from '../postgres/database.ts';
import { lateGoodbyes } from '../postgres/late-goodbyes.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');

/** A casebook in a file with something of most that there can be: cases with photos, spools, people, the bin, a hostile text. */
async function makeShop(file: string): Promise<string> {
  const { ask, program } = await programInMemory({ file });
  await ask('demo:load', {});
  await ask('shop:save-printer', { label: 'Heron \0 “2”', conditions: {}, printHours: 12.5, note: 'a\\b%_' });
  await ask('shop:save-person', { initials: 'ZQ', role: 'lead' });
  const complaints = [{ observation: 'stringing', value: 'slight' }];
  const { caseId } = await ask('case:open', { complaints });
  const { photo } = await ask('photo:keep', { base64: jpeg().toString('base64') });
  await ask('case:send', {
    caseId,
    revision: 1,
    event: { kind: 'photographed', photo, note: 'the strings' },
  });
  const away = await ask('case:open', { complaints });
  await ask('case:delete', { caseId: away.caseId, revision: away.revision });
  await program.casebook.close();
  return photo;
}

let made: { readonly folder: string; readonly photo: string } | null = null;
afterAll(() => made && rmSync(made.folder, { recursive: true, force: true }));

/** A copy of it for one test. */
async function shopInFile(): Promise<{ file: string; photo: string }> {
  if (made === null) {
    const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-'));
    made = { folder, photo: await makeShop(path.join(folder, 'casebook.sqlite')) };
  }
  const folder = temporaryFolder();
  cpSync(made.folder, folder, { recursive: true });
  return { file: path.join(folder, 'casebook.sqlite'), photo: made.photo };
}

async function openDatabase(address: string): Promise<PostgresCasebook> {
  const casebook = new PostgresCasebook(address, { now: () => new Date(), dumpFolder: null });
  onTestFinished(() => casebook.close());
  await casebook.open();
  return casebook;
}

describe.skipIf(!hasPostgres())(orWhyNot('moving a casebook'), () => {
  it('to a database and back loses and changes nothing, however often it is cut short', async () => {
    const { file, photo } = await shopInFile();
    const address = await testDatabase('nothing');
    let lots = 0;
    let cuts = 0;
    // Cut short at a later place each time.
    for (let isDone = false; !isDone;) {
      const from = await sourceInFile(file);
      const to = await targetInDatabase(address);
      let left = 1 + cuts * 9;
      try {
        await moveCasebook(from, to, () => {
          lots += 1;
          if (left-- === 0) throw new Error('cut short');
        });
        isDone = true;
      } catch (error) {
        expect(String(error)).toMatch(/cut short/);
        cuts += 1;
      } finally {
        await to.close();
        await from.close();
      }
      // Half of a casebook is never shown as one.
      const seen = await openDatabase(address);
      expect(seen.isOpen || /not all of it is there/.test(seen.problem)).toBe(true);
      expect(seen.isOpen).toBe(isDone);
      await seen.close();
    }
    expect([cuts > 3, lots > MOVED_TABLES.length]).toEqual([true, true]);

    const { ask } = await programInMemory({ database: address });
    const list = await ask('case:list', { limit: 200 });
    const own = list.rows.find(({ isDemo }) => !isDemo);
    expect(list.total).toBeGreaterThan(20);
    expect((await ask('bin:list', {})).cases).toHaveLength(1);
    const line = await ask('case:export', { caseIds: [own?.caseId ?? ''], after: null });
    expect(line.jsonLines).toContain(photo);
    expect(JSON.parse(line.jsonLines)).toMatchObject({ photos: [{ hash: photo }] });
  });

  it('back to a file gives the file that it came from', async () => {
    const { file } = await shopInFile();
    const address = await testDatabase('nothing');
    const there = [await sourceInFile(file), await targetInDatabase(address)] as const;
    const moved = await moveCasebook(...there);
    for (const end of there) await end.close();
    const again = path.join(temporaryFolder(), 'again.sqlite');
    const back = [await sourceInDatabase(address), await targetInFile(again)] as const;
    expect(existsSync(again)).toBe(false);
    expect(await moveCasebook(...back)).toEqual(moved);
    for (const end of back) await end.close();
    expect([moved.photos, existsSync(again), existsSync(`${again}.moving`)]).toEqual([1, true, false]);
    const [first, last] = [await sourceInFile(file), await sourceInFile(again)];
    for (const table of MOVED_TABLES)
      expect(await sumOf(last.db, table)).toEqual(await sumOf(first.db, table));
    await first.close();
    await last.close();
  });

  it('leaves the database to the next one at once, as a station does, though the server sees them off late', async () => {
    const address = await lateGoodbyes(await testDatabase('nothing'));
    const casebook = new PostgresCasebook(address, { now: () => new Date(), dumpFolder: null });
    await casebook.open();
    await casebook.close();
    for (let turn = 0; turn < 2; turn++) await (await sourceInDatabase(address)).close();
  });

  it('begun again after the casebook went on takes what is new, and what was changed', async () => {
    const { file } = await shopInFile();
    const address = await testDatabase('nothing');
    const cut = [await sourceInFile(file), await targetInDatabase(address)] as const;
    await expect(
      moveCasebook(...cut, (words) => {
        if (words.startsWith('case_rankings')) throw new Error('cut short');
      }),
    ).rejects.toThrow('cut short');
    for (const end of cut) await end.close();
    const { ask, program } = await programInMemory({ file });
    const { people } = await ask('shop:read', {});
    const person = people.find(({ initials }) => initials === 'ZQ');
    await ask('person:rename', {
      personId: person?.id ?? '',
      initials: 'RX',
      revision: person?.revision ?? 0,
    });
    await ask('case:open', { complaints: [{ observation: 'stringing', value: 'slight' }] });
    await program.casebook.close();
    const whole = [await sourceInFile(file), await targetInDatabase(address)] as const;
    const { cases } = await moveCasebook(...whole);
    for (const end of whole) await end.close();
    const { db } = await openDatabase(address);
    const { rows } = await sql<{ n: number }>`select count(*) as n from cases`.execute(db);
    expect(rows[0]?.n).toBe(cases);
    const now = await db.selectFrom('people').select('initials').where('is_demo', '=', 0).execute();
    expect(now).toEqual([{ initials: 'RX' }]);
  });

  it('is refused where a casebook is there, where somebody is at work, and keeps stations out meanwhile', async () => {
    const { file } = await shopInFile();
    const address = await testDatabase();
    const station = await openDatabase(address);
    await expect(targetInDatabase(address)).rejects.toThrow(/is at work on .*: stop it first/);
    await station.db
      .insertInto('people')
      .values({ id: 'p1', initials: 'RK', role: 'lead', is_retired: 0, is_demo: 0, revision: 1 })
      .execute();
    await station.close();
    // The server hears a moment later that the station has left.
    const refusal = () => targetInDatabase(address).catch((error: unknown) => String(error));
    await expect.poll(refusal, { timeout: 20_000 }).toMatch(/There is a casebook in .* already/);
    await expect(targetInFile(file)).rejects.toThrow(/There is a casebook at .* already/);
    const moving = await sourceInDatabase(address);
    const late = await openDatabase(address);
    expect(late.problem).toMatch(/it is being moved elsewhere just now/);
    await moving.close();
    await expect.poll(() => late.isOpen, { timeout: 20_000 }).toBe(true);
  });

  it('by the command survives a kill, and says what to do next', async () => {
    const { file } = await shopInFile();
    const address = await testDatabase('nothing');
    const run = (environment: Record<string, string>, to: string) => {
      const child = spawn(
        process.execPath,
        [path.join(ROOT, 'src-main', 'command', 'index.ts'), 'casebook', 'move', '--to', to],
        { env: { ...process.env, ...environment }, stdio: ['ignore', 'pipe', 'pipe'] },
      );
      onTestFinished(() => void child.kill('SIGKILL'));
      const said = { out: '', err: '' };
      child.stdout.on('data', (chunk: Buffer) => (said.out += chunk.toString()));
      child.stderr.on('data', (chunk: Buffer) => (said.err += chunk.toString()));
      return { child, said };
    };
    const first = run({ BEADWRIGHT_CASEBOOK: file }, address);
    await once(first.child.stderr, 'data');
    first.child.kill('SIGKILL');
    await once(first.child, 'exit');
    const second = run({ BEADWRIGHT_CASEBOOK: file }, address);
    const [code] = (await once(second.child, 'exit')) as [number];
    expect([code, second.said.err]).toEqual([0, expect.stringContaining('the same on both sides')]);
    expect(second.said.out).toMatch(/cases, \d+ rows in all and 1 photos are in postgres:/);
    expect(second.said.out).toMatch(/Start stations with BEADWRIGHT_DATABASE=postgres:/);
    const third = run({ BEADWRIGHT_DATABASE: address }, file);
    const [refused] = (await once(third.child, 'exit')) as [number];
    expect([refused, third.said.err]).toEqual([2, expect.stringContaining('There is a casebook at')]);
  });
});
