import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_WORDS } from '../../src-core/knowledge/words-schema.ts';
import { createFinder } from '../../src-core/words/finder.ts';
import { inOtherWords } from '../../src-core/words/in-other-words.ts';
import { createWordBook, plain } from '../../src-core/words/word-book.ts';

/** Words of a shop that share neither root nor beginning, so that no search can mix them up. */
const TERMS = [
  'nozzle',
  'belt',
  'spool',
  'gantry',
  'heater',
  'fan',
  'plate',
  'rail',
  'screw',
  'cable',
  'tube',
  'magnet',
];
const labels = fc
  .uniqueArray(fc.shuffledSubarray(TERMS, { minLength: 2, maxLength: 3 }), {
    minLength: 2,
    maxLength: 8,
    selector: (words) => [...words].sort().join(' '),
  })
  .map((rows) => rows.map((words) => words.join(' ')));
const book = createWordBook(NO_WORDS);

describe('a search', () => {
  it('stands the entry that is called just so first, in whatever order its words are typed', () =>
    fc.assert(
      fc.property(labels, fc.nat(), (all, pick) => {
        const wanted = all[pick % all.length] ?? '';
        const find = createFinder(
          all.map((label) => ({ label })),
          book,
        );
        const typed = wanted.split(' ').reverse().join(' ').toUpperCase();
        expect(find(typed)[0]?.entry.label).toBe(wanted);
        expect(find(typed)[0]?.found).toBeCloseTo(1, 9);
      }),
      { numRuns: 80, seed: 21 },
    ));

  it('finds just the entries that have a word of it, and each once', () =>
    fc.assert(
      fc.property(labels, fc.constantFrom(...TERMS), (all, term) => {
        const hits = createFinder(
          all.map((label) => ({ label })),
          book,
        )(term).map(({ entry }) => entry.label);
        expect([...hits].sort()).toEqual(all.filter((label) => label.split(' ').includes(term)).sort());
      }),
      { numRuns: 80, seed: 22 },
    ));

  it('ranks by score, with what can be complained of before what cannot, of two that fit alike', () => {
    const find = createFinder(
      [
        { label: 'Noisy fan', complaint: false },
        { label: 'Fan is noisy', complaint: true },
        { label: 'Belt', alsoCalled: ['fan belt'], complaint: false },
      ],
      book,
    );
    const hits = find('noisy fan');
    expect(hits[0]?.entry.complaint).toBe(true);
    expect(hits.map(({ score }) => score)).toEqual(hits.map(({ score }) => score).sort((a, b) => b - a));
  });

  it('finds what is said beside other things in one breath, before entries that have a word each of the rest', () => {
    const find = createFinder(
      [{ label: 'Loose gantry' }, { label: 'Spool and heater of the fan' }, { label: 'Cable on the plate' }],
      book,
    );
    expect(find('spool empty, heater cold, gantry loose, plate dirty')[0]?.entry.label).toBe('Loose gantry');
  });

  it('counts how many entries have a word, not how often one entry has it', () => {
    const find = createFinder(
      [
        { label: 'Belt', alsoCalled: ['belt one', 'belt two', 'belt three', 'belt four'] },
        { label: 'Rail', alsoCalled: ['magnet one'] },
        { label: 'Tube', alsoCalled: ['magnet two'] },
        { label: 'Plate', alsoCalled: ['magnet three'] },
      ],
      book,
    );
    expect(find('belt magnet')[0]?.entry.label).toBe('Belt');
  });

  it('leaves out what shares a single word of many', () => {
    const find = createFinder(
      [
        { label: 'Loose gantry rail' },
        { label: 'Spool magnet belt', ask: 'Is the heater by the rail, cable and tube?' },
      ],
      book,
    );
    expect(find('loose gantry rail').map(({ entry }) => entry.label)).toEqual(['Loose gantry rail']);
    expect(find('rail').map(({ entry }) => entry.label)).toHaveLength(2);
  });

  it('leads with complaints for a word, and by what fits for a whole statement', () => {
    const find = createFinder(
      [
        { label: 'Nozzle fan', complaint: true },
        { label: 'Nozzle screw by the plate rail', complaint: false },
      ],
      book,
    );
    expect(find('nozzle')[0]?.entry.label).toBe('Nozzle fan');
    expect(find('nozzle screw plate rail')[0]?.entry.label).toBe('Nozzle screw by the plate rail');
  });

  it('finds by what an entry is also called, nearer than by what is asked about it', () => {
    const find = createFinder(
      [
        { label: 'One', ask: 'Is the gantry loose?' },
        { label: 'Two', alsoCalled: ['loose gantry'] },
      ],
      book,
    );
    expect(find('loose gantry').map(({ entry }) => entry.label)).toEqual(['Two', 'One']);
  });

  it('takes a size as it is typed, with or without the space before its unit', () => {
    const find = createFinder([{ label: '0.4 mm nozzle' }, { label: '0.6 mm nozzle' }], book);
    expect(find('0.4mm nozzle')[0]?.entry.label).toBe('0.4 mm nozzle');
    expect(find('0.6mm')[0]?.entry.label).toBe('0.6 mm nozzle');
  });

  it('takes whatever is typed without a fault, and shares found lie between none and all', () => {
    const find = createFinder(
      TERMS.map((label) => ({ label })),
      book,
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'grapheme', maxLength: 30 }),
          fc.constantFrom('\u0000', "n't", '0.4,', '’s'),
        ),
        (query) => {
          for (const { found, score } of find(query)) {
            expect(found).toBeGreaterThan(0);
            expect(found).toBeLessThanOrEqual(1 + 1e-9);
            expect(score).toBeGreaterThan(0);
          }
        },
      ),
      { numRuns: 200, seed: 23 },
    );
  });
});

describe('words of a text', () => {
  it('stand where they were typed, accents and case off', () =>
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 50 }), (text) => {
        let reached = 0;
        for (const { from, to, plain: word } of book.wordsOf(text)) {
          expect(from).toBeGreaterThanOrEqual(reached);
          expect(to).toBeGreaterThan(from);
          reached = to;
          if (/^[\p{L}]+$/u.test(text.slice(from, to))) expect(word).toBe(plain(text.slice(from, to)));
        }
        expect(reached).toBeLessThanOrEqual(text.length);
      }),
    ));

  it.each([
    ["doesn't stick", ['not', 'stick']],
    ['won’t heat', ['not', 'heat']],
    ["the nozzle's tip", ['the', 'nozzle', 'tip']],
    ['0,4 mm', ['0.4', 'mm']],
    ['Düse 0.4mm', ['duse', '0.4', 'mm']],
    ['1,5h', ['1.5', 'h']],
    ['3D print', ['3d', 'print']],
  ])('"%s"', (text, words) => expect(book.wordsOf(text).map((word) => word.plain)).toEqual(words));

  it('say what a row says, the longest phrase first, whatever their endings', () => {
    const rows = createWordBook({
      ...NO_WORDS,
      same: [
        ['clog', 'jam', 'blocked nozzle'],
        ['nozzle', 'tip'],
      ],
    });
    const tokens = (text: string) => rows.unitsOf(text).map(({ token }) => token);
    expect(tokens('jams')).toEqual(tokens('clogging'));
    expect(tokens('blocked nozzles')).toEqual(tokens('clog'));
    expect(tokens('tip')).toEqual(tokens('nozzle'));
    expect(tokens('blocked tip')).toHaveLength(2);
    expect(inOtherWords('jams', rows)).toEqual([['jam', 'clog', 'blocked nozzle']]);
  });
});
