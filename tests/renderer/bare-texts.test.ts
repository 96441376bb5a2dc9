import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { bareLiterals, bareTexts, joinsOfWords, joinsOfWordsIn } from './messages/bare-texts.ts';

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

/** Joins that are no language, by file. */
const NO_LANGUAGE: Readonly<Record<string, { readonly why: string; readonly joins: readonly string[] }>> = {
  'charts/MonthRates.svelte': {
    why: 'points of a line as SVG parts them',
    joins: ["measured.map((one) => `${middle(one.month)},${y(one.rate ?? 0)}`).join(' ')"],
  },
  'charts/SeasonPlot.svelte': {
    why: 'points of a line as SVG parts them',
    joins: ["run.map((one) => `${middle(one.month)},${humidity(one.percentRh)}`).join(' ')"],
  },
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

const joinsOf = (name: string) => {
  const source = readFileSync(path.join(renderer, name), 'utf8');
  return name.endsWith('.svelte') ? joinsOfWordsIn(source) : joinsOfWords(source);
};

it('no words are joined but as the page’s language does it', () => {
  const found = files.flatMap((name) =>
    joinsOf(name)
      .filter(({ text }) => !NO_LANGUAGE[name]?.joins.includes(text))
      .map(({ line, text }) => `${name}:${line} ${text}`),
  );
  expect(found).toEqual([]);
});

it('every exception is still needed', () => {
  for (const [name, { joins }] of Object.entries(NO_LANGUAGE))
    expect(joinsOf(name).map(({ text }) => text)).toEqual(expect.arrayContaining([...joins]));
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
  const joined = `<script lang="ts">\n  const all = path.join('a, b') + names.join(', ');\n</script>\n<p>{parts\n  .join(' ')}</p>\n<i class={a.join('/')}></i>\n<b>{one}, {two} {\`\${a}; \${b}\`}</b>`;
  expect(joinsOfWordsIn(joined)).toEqual([
    { line: 2, text: "names.join(', ')" },
    { line: 5, text: "parts .join(' ')" },
    { line: 7, text: ',' },
    { line: 7, text: '`${a}; ${b}`' },
  ]);
  expect(joinsOfWords("a.join(' and '); b.join(' · '); c.join(''); throw new Error(d.join('; '));")).toEqual([
    { line: 1, text: "a.join(' and ')" },
  ]);
});
