import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { listPrinters } from '../../src-main/casebook/printer.repository.ts';
import { ended } from '../processes/ended.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const HERE = import.meta.dirname;
const ENTRIES = 40;

/** Why the cut cannot be played here, or empty. The shim is a library for Linux, and has to be compiled. */
const HINDRANCE =
  process.platform !== 'linux'
    ? 'the shim is for Linux'
    : spawnSync('cc', ['--version']).status === 0
      ? ''
      : 'there is no C compiler here';

/** Writes, kills the writer and opens what had been synced; returns the labels told of, and those found. */
async function cutThePower(mode: 'as it is' | 'off') {
  const folder = temporaryFolder();
  const [watched, synced] = [path.join(folder, 'watched'), path.join(folder, 'synced')];
  for (const one of [watched, synced]) mkdirSync(one);
  const shim = path.join(folder, 'power-cut.so');
  const built = spawnSync('cc', ['-shared', '-fPIC', '-o', shim, path.join(HERE, 'power-cut.c'), '-ldl'], {
    encoding: 'utf8',
  });
  if (built.status !== 0) throw new Error(built.stderr);
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
      env: { ...process.env, LD_PRELOAD: shim, POWER_CUT_WATCHED: watched, POWER_CUT_SYNCED: synced },
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
