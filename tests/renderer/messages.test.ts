import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { speak, type ParsePattern } from '../../src-renderer/messages/language.ts';
import { listed, listedPieces, sentences, series } from '../../src-renderer/messages/lists.ts';
import { messages } from '../../src-renderer/messages/messages.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';
import { grams } from '../../src-renderer/wording/format.ts';
import { englishTexts } from './messages/english-texts.ts';
import { CLOSE, OPEN, pseudo, PSEUDO_TAG, pseudoLanguage } from './messages/pseudo-language.ts';

const renderer = path.join(import.meta.dirname, '..', '..', 'src-renderer');
const catalogues = englishTexts('screens');
const english: [string, Record<string, string>, ParsePattern] = ['en', {}, parse];
afterEach(() => speak(...english));

describe('the catalogue', () => {
  it('names each part once, and is read whole', () => {
    expect(new Set(catalogues.map(({ part }) => part)).size).toBe(catalogues.length);
    expect(catalogues.flatMap(({ texts }) => [...texts]).length).toBeGreaterThan(2000);
  });

  it.each(catalogues)('$file parses, and has nothing that nobody shows', ({ file, texts }) => {
    for (const text of texts.values()) expect(() => parse(text)).not.toThrow();
    const users = readdirSync(renderer, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(?:svelte|ts)$/.test(name) && !name.startsWith('messages'))
      .map((name) => readFileSync(path.join(renderer, name), 'utf8'))
      .filter((source) => source.includes(`messages/en/${file}'`))
      .join('\n');
    expect([...texts.keys()].filter((key) => !new RegExp(`\\.${key}\\b`).test(users))).toEqual([]);
  });
});

it('every text is a whole: none begins or ends as one that is put to another', () => {
  const rests = catalogues.flatMap(({ part, texts }) =>
    [...texts]
      .filter(([, text]) => /^[\s,;:]|\s$/.test(text))
      .map(([key, text]) => `${part}.${key}: “${text}”`),
  );
  expect(rests).toEqual([]);
});

describe('a message', () => {
  // The tests of CLDR's plural rules for English and Polish: https://www.unicode.org/cldr/charts/latest/supplemental/language_plural_rules.html
  const m = messages('test', {
    plain: 'No open cases',
    cases: '{count, plural, one {# case} other {# cases}} on {printer}',
    marked: 'Closed ones are in the <link>{place}</link>.',
  });

  it('is filled, with its plural by the rules of the language', () => {
    speak('en', {}, parse);
    expect(m.plain()).toBe('No open cases');
    expect(m.cases({ count: 1, printer: 'Heron' })).toBe('1 case on Heron');
    expect(m.cases({ count: 1200, printer: null })).toBe('1,200 cases on ');
    expect(m.marked({ place: 'casebook' })).toEqual([
      'Closed ones are in the ',
      { tag: 'link', words: 'casebook' },
      '.',
    ]);
  });

  it('comes from the file of another language, and stays English where that has nothing', () => {
    speak(
      'pl',
      { 'test.cases': '{count, plural, one {# sprawa} few {# sprawy} many {# spraw} other {# sprawy}}' },
      parse,
    );
    expect([1, 3, 5].map((count) => m.cases({ count, printer: '' }))).toEqual([
      '1 sprawa',
      '3 sprawy',
      '5 spraw',
    ]);
    expect(m.plain()).toBe('No open cases');
    expect(grams(1500)).toBe('1,5 kg');
  });

  it('checks keys and values by type', () => {
    // @ts-expect-error no such key
    expect(() => m.missing()).toThrow();
    // @ts-expect-error a plural is chosen by a number
    m.cases({ count: 'one', printer: '' });
    // @ts-expect-error the place is not said
    expect(() => m.marked()).not.toThrow();
  });
});

describe('several things', () => {
  it('are joined as the page’s language joins them', () => {
    expect(listed(['a', 'b', 'c'])).toBe('a, b and c');
    expect(listed(['a', 'b'], 'or')).toBe('a or b');
    expect(listed(['a', 'b', 'c'], 'comma')).toBe('a, b, c');
    expect(series(['a, b', 'c'])).toBe('a, b; c');
    expect(sentences(['One.', '', 'Two.'])).toBe('One. Two.');
    const [one, two] = [{ label: 'a' }, { label: 'b' }];
    expect(listedPieces([one, two])).toEqual([one, ' and ', two]);
    // CLDR: Japanese lists have no "and", and no space stands between sentences.
    speak('ja', { 'lists.between': '；', 'lists.betweenSentences': '' }, parse);
    expect(listed(['a', 'b', 'c'])).toBe('a、b、c');
    expect(series(['a', 'b'])).toBe('a；b');
    expect(sentences(['a。', 'b。'])).toBe('a。b。');
    expect(listedPieces([one, two], 'or')).toEqual([one, 'または', two]);
  });
});

describe('the pseudo-language', () => {
  it('stands in brackets, accented and longer, with its placeholders', () => {
    expect(pseudo('Dry {spool} now')).toMatch(/^⟦Drý \{spool\} ñòw( öö)+⟧$/);
    const long = 'Close the case with what it was.';
    expect(pseudo(long).length).toBeGreaterThanOrEqual(long.length * 1.35);
  });

  it('has every text of the catalogue', () => {
    const texts = pseudoLanguage();
    for (const { part, texts: own } of catalogues)
      for (const key of own.keys())
        expect(texts[`${part}.${key}`]).toMatch(new RegExp(`^${OPEN}[^]*${CLOSE}$`));
    speak(PSEUDO_TAG, texts, parse);
    expect(grams(20)).toMatch(/^⟦20 g/);
  });
});
