import { describe, expect, it } from 'vitest';
import { NO_WORDS } from '../../src-core/knowledge/words-schema.ts';
import { createFinder } from '../../src-core/words/finder.ts';
import { createWordBook } from '../../src-core/words/word-book.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { phraseRanks, shareWithin } from './phrase-ranks.ts';

const knowledge = shippedKnowledge();
const book = createWordBook(knowledge.words);
const observations = [...knowledge.observations.values()];
const findObservation = createFinder(observations, book);
const findComplaint = createFinder(
  observations.filter((one) => one.complaint),
  book,
);
const guide = [
  knowledge.causes,
  knowledge.observations,
  knowledge.remedies,
  knowledge.materials,
  knowledge.mechanisms,
  knowledge.practices,
].flatMap((map) => [...map.values()]);
const findAnything = createFinder<(typeof guide)[number]>(guide, book);
const ids = (hits: readonly { readonly entry: { readonly id: string } }[]) =>
  hits.map(({ entry }) => entry.id);

describe('words of the trade among the observations', () => {
  it.each([
    ['under-extrusion', 'under-extrusion'],
    ['under extrusion', 'under-extrusion'],
    ['underextruded', 'under-extrusion'],
    ['over extrusion', 'over-extrusion'],
    ['vapor', 'vapour-at-head'],
    ['stringy', 'stringing'],
    ['hairy', 'stringing'],
    ['strings', 'stringing'],
    ['not sticking', 'first-layer-not-sticking'],
    ['bed adhesion', 'first-layer-not-sticking'],
    ['came off the bed', 'part-breaks-loose'],
    ['warped', 'corners-lift'],
    ['pillowing', 'pillowed-top'],
    ['scarring', 'supports-fail-or-scar'],
    ['squeak', 'squeak-or-rattle'],
    ['brittle filament', 'filament-brittle-on-spool'],
    ['stops extruding after an hour', 'gaps-after-good-start'],
  ])('%s finds %s first', (words, wanted) => expect(ids(findObservation(words))[0]).toBe(wanted));

  it.each([
    ['spaghetti', 'part-breaks-loose'],
    ['noise', 'grinding-noise'],
    ['noise', 'strange-noise'],
    // Axes skip as well as the extruder.
    ['skipping', 'gear-clicks'],
    ['skipping', 'head-stalls'],
    ['fumes', 'vapour-at-head'],
    ['fumes', 'smoke-or-burning-smell'],
    ['fan', 'part-fan-weak'],
    ['fan', 'hot-end-fan-still'],
    ['layers break apart', 'weak-layer-bonds'],
    ['layers break apart', 'delamination-cracks'],
    ['stops extruding after an hour', 'only-after-hours'],
    ['jam', 'repeated-nozzle-clog'],
    ['jam', 'extruder-jams'],
  ])('%s finds %s among the first five', (words, wanted) =>
    expect(ids(findObservation(words)).slice(0, 5)).toContain(wanted),
  );

  it('finds something for "print failed"', () =>
    expect(findComplaint('print failed').length).toBeGreaterThan(0));

  it.each([
    ['jam', 'part-swells-or-changes-size'],
    ['strings', 'part-breaks-loose'],
  ])('%s does not lead to %s', (words, wrong) => {
    expect(ids(findComplaint(words))[0]).not.toBe(wrong);
    expect(ids(findObservation(words))[0]).not.toBe(wrong);
  });
});

describe('words of the trade in the whole guide', () => {
  it.each([
    ['PTFE', 'worn-liner'],
    ['bowden', 'replace-worn-tube'],
    ['hotend', 'hot-end-fan-still'],
    ['z-offset', 'nozzle-too-close'],
    ['z offset', 'nozzle-too-far'],
    ['bed adhesion', 'first-layer-not-sticking'],
    ['pressure advance', 'pressure-compensation-wrong'],
    ['pressure advance', 'tune-pressure-compensation'],
  ])('%s finds %s', (words, wanted) => expect(ids(findAnything(words)).slice(0, 8)).toContain(wanted));
});

describe('how words are met', () => {
  const small = [
    { label: 'Job stops part way', alsoCalled: ['print stops'] },
    { label: 'Popping while loading', alsoCalled: ['crackling', 'snap crackle'] },
    { label: 'Vapour at the head', alsoCalled: ['steam'], ask: 'Is there steam or popping?' },
  ];
  const labels = (query: string, words = NO_WORDS) =>
    createFinder(small, createWordBook(words))(query).map(({ entry }) => entry.label);

  it('finds unfinished words by their beginning, not by their middle', () => {
    expect(labels('pop')).toEqual(['Popping while loading', 'Vapour at the head']);
    expect(labels('tops')).toEqual([]);
  });

  it.each(['poppign', 'poping', 'Popping!', 'POPPED'])('finds popping for %s', (query) =>
    expect(labels(query)[0]).toBe('Popping while loading'),
  );

  it('takes words in any order and stands what has all of them before what has some', () => {
    expect(labels('loading popping')[0]).toBe('Popping while loading');
    expect(labels('popping steam')).toEqual(['Vapour at the head', 'Popping while loading']);
    expect(labels('popping zebra')[0]).toBe('Popping while loading');
  });

  it('takes rows of words for one another, and a wide word for the narrow ones only', () => {
    const words = { ...NO_WORDS, same: [['job', 'print run']], wider: [{ word: 'noise', finds: ['pop'] }] };
    expect(labels('print run', words)).toEqual(['Job stops part way']);
    expect(labels('noise', words)[0]).toBe('Popping while loading');
    expect(
      createFinder([{ label: 'Noise' }], createWordBook(words))('popping').map(({ entry }) => entry.label),
    ).toEqual([]);
  });

  it.each(['', '   ', '!?', 'xyzzy'])('finds nothing for %j', (query) => expect(labels(query)).toEqual([]));
});

describe('phrases of real cases', () => {
  const ranks = phraseRanks(observations, knowledge.words);

  // Reached: 92 of 100 of all (489 phrases), 90 held out (196), 89 of those that were mapped when the words stood (55); wanted are
  // 85. The bounds leave room for a guide that grows: with more observations more of them say nearly the same.
  it('find their observation among the first five in 89 of 100', () =>
    expect(shareWithin(ranks, 5)).toBeGreaterThanOrEqual(0.89));

  it('do so in 85 of 100 that were held out while the words were chosen', () =>
    expect(
      shareWithin(
        ranks.filter(({ isHeldOut }) => isHeldOut),
        5,
      ),
    ).toBeGreaterThanOrEqual(0.85));

  it('do so in 83 of 100 that were mapped after the words', () =>
    expect(
      shareWithin(
        ranks.filter(({ isLater }) => isLater),
        5,
      ),
    ).toBeGreaterThanOrEqual(0.83));

  it('are sentences of single cases, so none of them stands in the guide as it was written', () => {
    const called = new Set(
      observations.flatMap(({ alsoCalled }) => alsoCalled.map((one) => one.toLowerCase())),
    );
    const long = ranks.filter(({ says }) => says.split(' ').length > 6);
    expect(long.filter(({ says }) => called.has(says.toLowerCase())).map(({ says }) => says)).toEqual([]);
  });
});
