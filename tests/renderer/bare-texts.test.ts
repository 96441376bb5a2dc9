import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { bareLiterals, bareTexts } from './messages/bare-texts.ts';

const renderer = path.join(import.meta.dirname, '..', '..', 'src-renderer');

/** Texts that stay where they are, by file, each with the reason. */
const EXCEPTIONS: Readonly<Record<string, { readonly why: string; readonly texts: readonly string[] }>> = {
  'start.ts': {
    why: 'a fault of the program, for whoever reads the console',
    texts: ['the page has no #app'],
  },
  'components/drawings.ts': { why: 'caught where it is thrown; nobody reads it', texts: ['0 answered 0'] },
  'files/print-document.ts': {
    why: 'a fault of the program, for whoever reads the console',
    texts: ['the document could not be laid out for printing'],
  },
  'host/live-changes.svelte.ts': { why: 'a state, never shown', texts: ['reading and asked'] },
};

const files = readdirSync(renderer, { recursive: true, encoding: 'utf8' }).filter(
  (name) => /\.(?:svelte|ts)$/.test(name) && !name.startsWith('messages/en') && !name.endsWith('.d.ts'),
);

it('no text of a screen stands outside the catalogue', () => {
  const found = files.flatMap((name) => {
    const source = readFileSync(path.join(renderer, name), 'utf8');
    const allowed = EXCEPTIONS[name]?.texts ?? [];
    return (name.endsWith('.svelte') ? bareTexts(source) : bareLiterals(source))
      .filter(({ text }) => !allowed.includes(text))
      .map(({ line, text }) => `${name}:${line} ${text}`);
  });
  expect(found).toEqual([]);
});

it('every exception is still needed', () => {
  for (const [name, { texts }] of Object.entries(EXCEPTIONS)) {
    const source = readFileSync(path.join(renderer, name), 'utf8');
    const found = name.endsWith('.svelte') ? bareTexts(source) : bareLiterals(source);
    expect(found.map(({ text }) => text)).toEqual(expect.arrayContaining([...texts]));
  }
});

it('finds what it is there to find', () => {
  const component = `<script lang="ts">\n  let note = 'Try it again';\n</script>\n<p class="soft warm">Bare</p>\n<p aria-label="Heard" title={isOn ? 'Told so' : ''}>{m.kept()}</p>`;
  expect(bareTexts(component)).toEqual([
    { line: 2, text: 'Try it again' },
    { line: 4, text: 'Bare' },
    { line: 5, text: 'Heard' },
    { line: 5, text: 'Told so' },
  ]);
  expect(bareLiterals("const words = { closed: 'Closed', kind: 'Not shown so' };")).toEqual([
    { line: 1, text: 'Closed' },
  ]);
});
