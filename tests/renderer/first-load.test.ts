import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { FIRST_LOAD_LIMIT_BYTES, loadBytes, PROGRAM, type BuiltScript } from '../../first-load.ts';

const built = path.join(import.meta.dirname, '..', '..', 'out', 'renderer');

/** The built files as a browser meets them: from the page, by the imports that stand in their text. */
function builtScripts(): { scripts: Map<string, BuiltScript>; entries: string[]; program: string[] } {
  const folder = path.join(built, 'assets');
  const scripts = new Map<string, BuiltScript>();
  for (const name of readdirSync(folder).filter((one) => one.endsWith('.js'))) {
    const code = readFileSync(path.join(folder, name), 'utf8');
    const imports = [...code.matchAll(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/g)].map(
      ([, other = '']) => other,
    );
    scripts.set(name, { code, imports });
  }
  const page = readFileSync(path.join(built, 'index.html'), 'utf8');
  const entries = [...page.matchAll(/<script[^>]* src="\.\/assets\/([^"]+\.js)"/g)].map(
    ([, name = '']) => name,
  );
  const program = [...scripts.keys()].filter((name) => name.startsWith(`${PROGRAM}-`));
  return { scripts, entries, program };
}

describe('what a browser brings before a screen stands', () => {
  const { scripts, entries, program } = builtScripts();
  const screens = [...scripts.keys()].filter((name) => /^\w+Screen-/.test(name));

  it('every screen is a file of its own', () => {
    expect([entries, program].map(({ length }) => length)).toEqual([1, 1]);
    expect(screens.length).toBeGreaterThanOrEqual(13);
    const withFrame = [...entries, ...program].flatMap((name) => scripts.get(name)?.imports ?? []);
    expect(withFrame.filter((name) => screens.includes(name))).toEqual([]);
  });

  it.each(screens)('%s stays below the limit', (screen) => {
    const bytes = loadBytes(scripts, [...entries, ...program, screen]);
    expect(bytes).toBeGreaterThan(30_000);
    expect(bytes).toBeLessThan(FIRST_LOAD_LIMIT_BYTES);
  });

  it('counts what comes along once, and what a file cannot run without', () => {
    const twice = new Map<string, BuiltScript>([
      ['a', { code: 'a'.repeat(9), imports: ['b', 'c'] }],
      ['b', { code: 'b'.repeat(9), imports: ['c'] }],
      ['c', { code: 'c'.repeat(9), imports: ['a'] }],
    ]);
    expect(loadBytes(twice, ['a'])).toBe(3 * loadBytes(new Map([...twice].slice(2)), ['c']));
  });

  it('drawings are files of their own', () => {
    const drawings = readdirSync(path.join(built, 'assets')).filter((name) => name.endsWith('.svg'));
    expect(drawings.length).toBeGreaterThan(400);
    for (const { code } of scripts.values()) expect(code).not.toContain('viewBox="0 0 160 120"');
  });
});
