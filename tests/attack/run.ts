import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

/**
 * `npm run attack [-- PIECE …]`: the attack at length, or the pieces of it whose file names hold one of the words (fuzz,
 * damaged, hostile, clients, scale, kill, …), and its figures beside those of the first hostile test. The program must be built.
 */
const ROOT = path.join(import.meta.dirname, '..', '..');

/** What the first hostile test found, on two busy cores. */
const BEFORE: Readonly<Record<string, string>> = {
  'kill -9': '130 kills, 2,460 writes acknowledged, 0 lost',
  'file damage': '29 variants, 0 crashes; 11 refused untouched, restore worked in 10',
  fuzz: '100,000 inputs: 0 crashes, 35 internal; RSS 344 -> 783 MB',
  'hostile text': '47 addresses x 3 widths: 0 executions, 5 screens widened',
  '50 clients, 5 s pause': 'answer p50 139 ms, p99 628 ms',
  'same case': '3 clients x 60: one winner, 120 stale',
  '100,000 cases: start': '3.4 s',
  '100,000 cases: size': '397 MB',
  '100,000 cases: first page': '29 ms',
  '100,000 cases: search': '0.24-0.43 s',
  '100,000 cases: lead:recurrence': '0.6 s',
  '100,000 cases: shop:read': '0.4 s',
  '100,000 cases: case:send': '1.1 s',
  '100,000 cases: backup:make': '2.1 s',
  '100,000 cases: export': '46 s',
  '100,000 cases: RSS': '2.7 GB while exporting',
};

const pieces = process.argv.slice(2);
const files = pieces.length > 0 ? pieces : ['tests/attack', 'tests/durability', 'tests/casebook/scale'];
const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-attack-'));
const figures = path.join(folder, 'figures.jsonl');
const { status } = spawnSync(
  process.execPath,
  [path.join(ROOT, 'node_modules', 'vitest', 'vitest.mjs'), 'run', '--no-file-parallelism', ...files],
  {
    cwd: ROOT,
    stdio: 'inherit',
    env: { ...process.env, BEADWRIGHT_NIGHTLY: '1', BEADWRIGHT_FIGURES: figures },
  },
);
if (existsSync(figures)) {
  console.log('\n| what | before | now |\n| --- | --- | --- |');
  for (const line of readFileSync(figures, 'utf8').split('\n').filter(Boolean)) {
    const { name, value } = JSON.parse(line) as { name: string; value: string };
    console.log(`| ${name} | ${BEFORE[name] ?? 'not measured'} | ${value} |`);
  }
}
rmSync(folder, { recursive: true, force: true });
process.exit(status ?? 1);
