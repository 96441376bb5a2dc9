import path from 'node:path';
import { expect, it } from 'vitest';
import { containedPath } from '../../src-main/bootstrap/contained-path.ts';

const folder = path.resolve('/srv/ui');

it('keeps files inside the folder', () => {
  expect(containedPath(folder, '/assets/index.js')).toBe(path.join(folder, 'assets/index.js'));
  expect(containedPath(folder, '/a%20b.svg')).toBe(path.join(folder, 'a b.svg'));
});

it.each([
  '/../ui-evil/x.js',
  '/%2e%2e/secret',
  '/..%2f..%2fetc/passwd',
  '/a/../../etc/passwd',
  '/..\\..\\etc',
])('%s never leads out of it', (urlPath) => {
  const file = containedPath(folder, urlPath);
  expect(file === null || file.startsWith(`${folder}${path.sep}`)).toBe(true);
});

it.each(['/%E0%A4%A', '/x%00.js'])('%s is refused', (urlPath) => {
  expect(containedPath(folder, urlPath)).toBeNull();
});
