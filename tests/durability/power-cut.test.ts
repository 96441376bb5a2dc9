import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { listPrinters } from '../../src-main/casebook/printer.repository.ts';
import { ended } from '../processes/ended.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { HINDRANCE, powerCutEnvironment } from './power-cut-shim.ts';

const HERE = import.meta.dirname;
const ENTRIES = 40;

/** Writes, kills the writer and opens what had been synced; returns the labels told of, and those found. */
async function cutThePower(mode: 'as it is' | 'off') {
  const folder = temporaryFolder();
  const [watched, synced] = [path.join(folder, 'watched'), path.join(folder, 'synced')];
  for (const one of [watched, synced]) mkdirSync(one);
  const child = spawn(
    process.execPath,
    [
      path.join(HERE, 'write-and-tell.ts'),
      path.join(watched, 'casebook.sqlite'),
      String(ENTRIES),
      ...(mode === 'off' ? ['off'] : []),
    ],
    {
      stdio: ['ignore', 'pipe', 'pipe'],
      env: powerCutEnvironment(folder, { watched, synced }),
    },
  );
  onTestFinished(() => ended(child, 'SIGKILL'));
  let told = '';
  let failed = '';
  child.stderr.on('data', (chunk: Buffer) => (failed += chunk.toString()));
  await new Promise<void>((resolve, reject) => {
    child.once('exit', () => reject(new Error(`the writer ended: ${failed}`)));
    child.stdout.on('data', (chunk: Buffer) => {
      told += chunk.toString();
      if (told.includes('all kept')) resolve();
    });
  });
  child.removeAllListeners('exit');
  await ended(child, 'SIGKILL');
  const casebook = new FileCasebook(path.join(synced, 'casebook.sqlite'), () => new Date(), {
    makesBackups: false,
  });
  await casebook.open();
  onTestFinished(() => casebook.close());
  if (!casebook.isOpen) return { told, found: [], problem: casebook.problem };
  return { told, found: (await listPrinters(casebook.db)).map(({ label }) => label), problem: '' };
}

describe.skipIf(HINDRANCE)(`a cut of the power${HINDRANCE && `, not played: ${HINDRANCE}`}`, () => {
  it('loses nothing acknowledged, though nothing that was not synced is left', async () => {
    const { told, found, problem } = await cutThePower('as it is');
    expect(problem).toBe('');
    expect(told.match(/kept P/g)).toHaveLength(ENTRIES);
    expect(found).toHaveLength(ENTRIES);
  }, 300_000);

  it('would be noticed with synchronous off: then what was acknowledged is gone', async () => {
    const { told, found } = await cutThePower('off');
    expect(told.match(/kept P/g)).toHaveLength(ENTRIES);
    expect(found.length).toBeLessThan(ENTRIES);
  }, 300_000);
});
