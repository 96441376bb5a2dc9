import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CONDITION } from '../../src-core/contract/relied-on-conditions.ts';
import type { Condition, Material, Observation } from '../../src-core/knowledge/schema.ts';
import { NO_WORDS, type Words } from '../../src-core/knowledge/words-schema.ts';
import { clausesOf } from '../../src-core/words/understand/clauses.ts';
import { createUnderstanding } from '../../src-core/words/understand/understand.ts';
import { createWordBook } from '../../src-core/words/word-book.ts';
import { observation } from '../differential/small-guide.ts';
import { remedyOf } from '../session/small-remedy.ts';

const number = (id: string, unit: string, min: number, max: number): Condition => ({
  id,
  label: id,
  ask: '?',
  alsoCalled: [],
  formerly: [],
  number: { unit, min, max },
});
const choice = (id: string, values: Readonly<Record<string, readonly string[]>>): Condition => ({
  id,
  label: id,
  ask: '?',
  alsoCalled: [],
  formerly: [],
  values: Object.entries(values).map(([value, names]) => ({
    id: value,
    label: names[0] ?? value,
    alsoCalled: names.slice(1),
    formerly: [],
  })),
});
const words: Words = {
  ...NO_WORDS,
  small: ['the', 'a', 'is', 'it', 'at', 'of', 'on', 'with', 'and'],
  said: {
    ...NO_WORDS.said,
    not: ['not', 'no'],
    cured: ['fixed'],
    unchanged: ['no change'],
    better: ['better'],
    relative: ['hotter', 'more'],
  },
  numbers: [
    { condition: CONDITION.nozzleMm, near: ['nozzle', 'bore'], alone: { atLeast: 0.1, below: 1.3 } },
    {
      condition: CONDITION.nozzleTemperature,
      near: ['hot end', 'nozzle'],
      alone: { atLeast: 170, below: 400 },
    },
    { condition: CONDITION.plateTemperature, near: ['bed'], alone: { atLeast: 30, below: 130 } },
    { condition: CONDITION.roomHumidity, near: ['humidity'] },
    { condition: 'hours-open', near: ['open', 'out'] },
  ],
};
const book = createWordBook(words);
const conditions = [
  number(CONDITION.nozzleMm, 'mm', 0.1, 2),
  number(CONDITION.nozzleTemperature, '°C', 150, 450),
  number(CONDITION.plateTemperature, '°C', 0, 160),
  number(CONDITION.roomHumidity, '%RH', 0, 100),
  number('hours-open', 'h', 0, 5000),
  choice('polymer', { abs: ['ABS'], pc: ['PC'], pa6: ['PA 6', 'nylon'], pa12: ['PA 12', 'nylon'] }),
];
const observations: Observation[] = [
  observation('pops', 0.05, 1, { label: 'Popping while loading' }),
  observation('other-spool', 0.05, 1, {
    label: 'Another spool prints well',
    kind: 'comparison',
    alsoCalled: ['another spool'],
  }),
];
const read = createUnderstanding(
  {
    observations,
    conditions,
    materials: [] as Material[],
    remedies: [remedyOf('dry', { wet: 0.9 }, { label: 'Dry the filament', alsoCalled: ['dried it'] })],
    printers: [
      { id: 'p1', label: 'Heron' },
      { id: 'p2', label: 'Grey heron' },
    ],
    spools: [
      { id: 's1', label: 'A-12 black ABS' },
      { id: 's2', label: 'A-13 white ABS' },
    ],
  },
  book,
);
const circumstances = (text: string) =>
  Object.fromEntries(
    read(text).flatMap((chip) => (chip.kind === 'condition' && chip.isSure ? [[chip.id, chip.value]] : [])),
  );

describe('numbers of a sentence', () => {
  it.each<[string, Record<string, number>]>([
    ['0.6 mm nozzle', { 'nozzle-mm': 0.6 }],
    ['nozzle 0,4 mm', { 'nozzle-mm': 0.4 }],
    ['hot end at 240', { 'nozzle-temperature': 240 }],
    ['nozzle at 240 °C', { 'nozzle-temperature': 240 }],
    ['240 C', { 'nozzle-temperature': 240 }],
    // 464 °F are 240 °C.
    ['464 °F', { 'nozzle-temperature': 240 }],
    ['464 degrees fahrenheit', { 'nozzle-temperature': 240 }],
    ['235/75 C', { 'nozzle-temperature': 235, 'plate-temperature': 75 }],
    ['bed 60 deg', { 'plate-temperature': 60 }],
    ['humidity 55 %', { 'room-humidity': 55 }],
    ['left out for 2 days', { 'hours-open': 48 }],
    ['3 weeks in the open', { 'hours-open': 504 }],
    ['out for 5 h', { 'hours-open': 5 }],
  ])('"%s" says %j', (text, said) => expect(circumstances(text)).toEqual(said));

  it.each([
    // A comparison, not a setting.
    '10 degrees hotter on the bed',
    // No number of a circumstance: a part of a name, a span, a version, too much for the meter.
    'Heron-240',
    '1-2 mm nozzle',
    'v240',
    'nozzle 700 °C',
    'bed 300 °C',
    '240',
    '',
  ])('"%s" says none', (text) => expect(circumstances(text)).toEqual({}));
});

describe('polymers by name', () => {
  it('are taken in capitals only where they have two letters, as "the PC" is a computer', () => {
    expect(circumstances('printing PC')).toEqual({ polymer: 'pc' });
    expect(circumstances('printing pc')).toEqual({});
    expect(circumstances('the PC froze')).toEqual({});
    expect(circumstances('abs again')).toEqual({ polymer: 'abs' });
  });

  it('are offered, each, where one word means several', () =>
    expect(
      read('black nylon').flatMap((chip) => (chip.kind === 'condition' ? [[chip.value, chip.isSure]] : [])),
    ).toEqual([
      ['pa6', false],
      ['pa12', false],
    ]));
});

describe('printers and spools by name', () => {
  const named = (text: string) =>
    read(text).flatMap((chip) =>
      chip.kind === 'printer' || chip.kind === 'spool' ? [[chip.id, chip.isSure]] : [],
    );

  it.each([
    ['stops on Heron', [['p1', true]]],
    ['spool a12', [['s1', true]]],
    ['spool A 13', [['s2', true]]],
    // One spool a case: the one said last.
    ['spool A-12, now A-13', [['s2', true]]],
    ['spool A-13, now A-12', [['s1', true]]],
    ['A-1 is fine', []],
    ['black abs', [['s1', false]]],
  ])('"%s" names %j', (text, found) => expect(named(text)).toEqual(found));
});

describe('statements of a text', () => {
  const parts = (text: string) =>
    clausesOf(text, book).map((clause) => clause.words.map(({ plain }) => plain).join(' '));

  it.each([
    ['pops, then stops', ['pops', 'then stops']],
    ['0.4 mm, 1.5 h', ['0.4 mm', '1.5 h']],
    ['it pops. It stops', ['it pops', 'it stops']],
    ['dried it - no change', ['dried it', 'no change']],
    ['part-cooling fan', ['part cooling fan']],
    ['pops but prints', ['pops', 'but prints']],
    ['sandy button', ['sandy button']],
    [', ; !', []],
  ])('"%s"', (text, said) => expect(parts(text)).toEqual(said));

  it('lose no word and change no order, whatever is typed', () =>
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), (text) => {
        expect(clausesOf(text, book).flatMap((clause) => clause.words)).toEqual(book.wordsOf(text));
      }),
    ));
});

describe('how a try went', () => {
  const tried = (text: string) =>
    read(text).flatMap((chip) => (chip.kind === 'tried' ? [[chip.id, chip.outcome]] : []));

  it('belongs to what was done just before', () => {
    expect(tried('dried it, no change')).toEqual([['dry', 'not-cured']]);
    expect(tried('dried it, better')).toEqual([['dry', 'better']]);
    // What fixed it is no open trouble.
    expect(tried('dried it, fixed')).toEqual([]);
    expect(tried('dried it')).toEqual([]);
  });

  it('with another spool is a comparison: there where it is better, not where nothing changed', () => {
    const compared = (text: string) =>
      read(text).flatMap((chip) => (chip.kind === 'observation' ? [[chip.id, chip.value]] : []));
    expect(compared('another spool, no change')).toEqual([['other-spool', 'absent']]);
    expect(compared('another spool fixed it')).toEqual([['other-spool', 'present']]);
  });
});

it('every chip carries words that were typed, at their places, whatever the text', () => {
  const piece = fc.oneof(
    fc.constantFrom(
      'popping',
      'while loading',
      'not',
      'nozzle',
      '0.6 mm',
      '235/75 C',
      'ABS',
      'PC',
      'nylon',
      'Heron',
      'A-12',
      'dried it',
      'no change',
      'another spool',
      ',',
      '.',
      '464 °F',
      '2 days',
      'out',
      'the',
    ),
    fc.string({ unit: 'grapheme', maxLength: 6 }),
  );
  let chips = 0;
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 8 }), (pieces) => {
      const text = pieces.join(' ');
      for (const chip of read(text)) {
        chips++;
        expect(text).toContain(chip.said);
        expect(chip.said.trim()).not.toBe('');
        expect(chip.places.length).toBeGreaterThan(0);
        for (const { from, to } of chip.places) {
          expect(from).toBeGreaterThanOrEqual(0);
          expect(to).toBeGreaterThan(from);
          expect(to).toBeLessThanOrEqual(text.length);
        }
        expect(chip.score).toBeGreaterThan(0);
        expect(chip.score).toBeLessThanOrEqual(1);
      }
    }),
    { numRuns: 400, seed: 9 },
  );
  expect(chips).toBeGreaterThan(400);
});
