import { globSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';

const TESTS = path.join(import.meta.dirname, '..');
/** The rows of the code review (A, B) and of the hostile test; the low ones have names. */
const ROWS = [
  ...Array.from({ length: 11 }, (_, i) => `A${i + 1}`),
  ...Array.from({ length: 16 }, (_, i) => `B${i + 1}`),
  ...Array.from({ length: 18 }, (_, i) => `attack ${i + 1}`),
  'attack, scale',
  ...[
    'an unknown flag',
    'aliases that multiply',
    'a guide that is not there',
    'an export into a folder that is not there',
    '1.8 M keys',
    '__proto__',
    'internal answers',
    'a number of 400 digits',
    'an import passes the checks of saving',
    'long words',
    'RTL overrides',
    'zero-width names',
    'read-only',
    'XMLBIF',
  ].map((name) => `attack, low.*${name}`),
];

it('every row of the reviews has a test that is named after it', () => {
  const titles = globSync('**/*.test.ts', { cwd: TESTS })
    .filter((file) => !file.endsWith('every-row.test.ts'))
    .flatMap((file) => readFileSync(path.join(TESTS, file), 'utf8').split('\n'))
    // A title stands in quotes; what is said in a comment or a check is none.
    .filter((line) => /^\s*(it|describe)\b|^\s*\[?['"`]/.test(line));
  const missing = ROWS.filter((row) => !titles.some((title) => new RegExp(`\\b${row}(?![0-9])`).test(title)));
  expect(missing).toEqual([]);
});
