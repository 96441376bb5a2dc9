import { spawnSync } from 'node:child_process';
import path from 'node:path';

// `npm run durability -- KILLS`: the kill test at length, some seconds a kill. The program must be built.
const kills = Number(process.argv[2] ?? 400);
if (!Number.isInteger(kills) || kills < 2) {
  console.error('durability takes a whole number of kills from 2');
  process.exit(2);
}
const root = path.join(import.meta.dirname, '..', '..');
const { status } = spawnSync(
  process.execPath,
  [path.join(root, 'node_modules', 'vitest', 'vitest.mjs'), 'run', 'tests/durability'],
  { cwd: root, stdio: 'inherit', env: { ...process.env, BEADWRIGHT_KILLS: String(kills) } },
);
process.exit(status ?? 1);
