import { describe, expect, it } from 'vitest';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { fillFigures as fill, hasFigures, type FigureSources } from '../../src-core/words/guide-figures.ts';
import { likelierCauses } from '../../src-renderer/screens/guide/evidence/material-words.ts';
import { numberSources } from '../../src-renderer/screens/guide/sheets/numbered-sources.ts';
import { chanceOfShowing } from '../../src-core/words/worded-scale.ts';
import { importSentence, triedSentence } from '../../src-renderer/wording/import-words.ts';
import { asSentence } from '../../src-renderer/wording/label-words.ts';
import { inSentence } from '../../src-core/words/in-sentence.ts';
import { linkWords, nearestWord, strengthWords } from '../../src-renderer/wording/strength-words.ts';
import { whenWords } from '../../src-renderer/wording/when-words.ts';
import { shippedGuideBook } from './shipped-guide-book.ts';
import { observation } from '../differential/small-guide.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');
const graded = observation('s', 0.1, 1, {
  grades: [
    { id: 'none', label: 'None' },
    { id: 'slight', label: 'Slight' },
    { id: 'heavy', label: 'Heavy' },
  ],
});
const measured = observation('m', 0.1, 1, {
  measure: {
    quantity: 'Weight',
    unit: '%',
    min: 0,
    max: 5,
    bands: [
      { id: 'dry', label: 'Dry', below: 0.1 },
      { id: 'damp', label: 'Damp', from: 0.1, below: 0.4 },
      { id: 'wet', label: 'Wet', from: 0.4 },
    ],
  },
});

describe('strengths in words', () => {
  it('carry the figure behind the word, and the nearest word behind a figure', () => {
    expect(plain(strengthWords('usually'))).toBe('usually, 85 %');
    expect(plain(strengthWords(0.6))).toBe('about half, 60 %');
    expect(plain(strengthWords(0.015))).toBe('hardly ever, 1.5 %');
    expect(nearestWord(0.9)).toBe('nearly always');
  });

  it('read grades as "at least", bands as they are', () => {
    expect(plain(linkWords({ heavy: 0.5, slight: 'usually' }, graded))).toBe(
      'at least slight: usually, 85 %; heavy: about half, 50 %',
    );
    expect(plain(linkWords({ damp: 0.4, wet: 0.5 }, measured))).toBe(
      'damp: about half, 40 %; wet: about half, 50 %',
    );
  });

  it('take the greatest grade, but the sum of bands, as the chance of showing', () => {
    expect(chanceOfShowing({ slight: 0.85, heavy: 0.5 }, false)).toBe(0.85);
    expect(chanceOfShowing({ damp: 0.4, wet: 0.5 }, true)).toBeCloseTo(0.9, 12);
  });
});

describe('conditions in words', () => {
  const { conditions } = shippedGuideBook();

  it('join all that must hold', () => {
    expect(whenWords({ storage: 'open', polymer: ['pla', 'abs', 'tpu'] }, conditions, '°C')).toBe(
      'How the spool was kept: Open in the room or on the printer; Material: PLA, ABS or TPU',
    );
  });

  it('give limits in the reader’s unit', () => {
    const when = { 'nozzle-temperature': { atLeast: 250, below: 300 } };
    expect(whenWords(when, conditions, '°C')).toBe('Nozzle temperature: from 250 °C and below 300 °C');
    expect(whenWords(when, conditions, '°F')).toBe('Nozzle temperature: from 482 °F and below 572 °F');
  });
});

describe('what a material makes likelier', () => {
  it('lists raising odds only, strongest first, with the other conditions that must hold', () => {
    const { materials, guide } = shippedGuideBook();
    const pa6 = materials.get('pa6');
    if (!pa6) throw new Error('the guide lost nylon 6');
    const likelier = likelierCauses(pa6, guide.causes);
    expect(likelier.length).toBeGreaterThan(2);
    expect(likelier.every((one) => one.timesOdds > 1)).toBe(true);
    expect(likelier.map((one) => one.timesOdds)).toEqual(
      likelier.map((one) => one.timesOdds).toSorted((a, b) => b - a),
    );
    const wet = likelier.filter((one) => one.cause === 'wet-filament');
    expect(wet.some((one) => Object.keys(one.also).length === 0)).toBe(true);
    expect(wet.every((one) => !('polymer' in one.also))).toBe(true);
  });
});

describe('sources', () => {
  it('number published ones once and leave the others as words', () => {
    const sources = numberSources([
      'estimate',
      'published: A, 2001',
      'published: B, 2002',
      'published: A, 2001',
    ]);
    expect(sources.published).toEqual(['A, 2001', 'B, 2002']);
    expect(sources.markOf({ source: 'published: B, 2002', confidence: 'fair' })).toBe('[2], fair confidence');
    expect(sources.markOf({ source: 'common practice' })).toBe('common practice');
  });
});

describe('texts with places for figures', () => {
  const fillFigures = (text: string, sources: FigureSources) => inEnglish(fill(text, sources));

  it('are filled from the material, or say where to look', () => {
    const { materials } = shippedGuideBook();
    const text = 'Dry at {drying-temperature} for {drying-hours}.';
    expect(hasFigures(text)).toBe(true);
    expect(fillFigures(text, { polymer: materials.get('pla') })).toBe('Dry at 45 to 55 °C for 6 to 24 h.');
    expect(fillFigures(text, {})).toContain("the drying temperature on the maker's sheet");
  });

  it('drying figures keep to what a plastic spool bears until the spool is known', () => {
    const { materials, guide } = shippedGuideBook();
    const spoolBody = guide.spoolBodies.find(({ id }) => id === 'plastic');
    const text = 'Dry at {drying-temperature}, not above {drying-limit}, for {drying-hours}.';
    const filled = (id: string, workedOut?: Record<string, string>) =>
      fillFigures(text, { polymer: materials.get(id), spoolBody, workedOut });
    // PC: resin is dried at 110 to 120 °C, which no plastic spool bears.
    expect(filled('pc')).toBe(
      'Dry at 70 °C (110 to 120 °C only on a spool made for it), not above 70 °C on a plastic spool, for 12 to 24 h, or shorter on a spool made for more heat.',
    );
    expect(filled('pet')).toBe('Dry at 65 to 70 °C, not above 70 °C on a plastic spool, for 6 to 12 h.');
    // PLA gives way before the spool does.
    expect(filled('pla')).toBe('Dry at 45 to 55 °C, not above 55 °C, for 6 to 24 h.');
    expect(filled('pc', { 'drying-temperature': '110 °C' })).toContain('Dry at 110 °C,');
    for (const [id, { kind }] of materials)
      if (kind === 'polymer')
        expect(Number(/Dry at (?:\d+ to )?(\d+)/.exec(filled(id))?.[1] ?? 0), id).toBeLessThanOrEqual(70);
  });

  it('leave no place open in the whole shipped guide', () => {
    const { guide } = shippedGuideBook();
    const texts = guide.remedies.flatMap((one) => [
      ...one.steps.map((step) => step.do),
      one.verify,
      one.stopAndCall,
    ]);
    expect(texts.filter((text) => /\{[a-z-]+\}/.test(fillFigures(text, {})))).toEqual([]);
  });
});

describe('small words', () => {
  it('fit labels into sentences', () => {
    expect(['Nylon 6', 'PLA', 'A-12 black', 'Slight'].map(inSentence)).toEqual([
      'nylon 6',
      'PLA',
      'A-12 black',
      'slight',
    ]);
    expect(asSentence('about ten')).toBe('About ten');
  });

  it('report an import', () => {
    expect(importSentence({ imported: 3, known: 1, faults: [1, 2] })).toBe(
      '3 cases imported, 1 case already here, 2 lines could not be read and were left out.',
    );
    expect(triedSentence({ imported: 3, known: 0, faults: [1] })).toBe(
      '3 cases would come in, 1 line cannot be read and would be left out.',
    );
    expect(importSentence({ imported: 0, known: 0, faults: [] })).toBe('there are no cases in this file.');
  });
});
