import { describe, expect, it } from 'vitest';
import type { Chip } from '../../src-core/words/understand/chips.ts';
import { createUnderstanding } from '../../src-core/words/understand/understand.ts';
import { createWordBook } from '../../src-core/words/word-book.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const named = (labels: readonly string[]) => labels.map((label) => ({ id: label, label }));
const understand = createUnderstanding(
  {
    observations: [...knowledge.observations.values()],
    conditions: [...knowledge.conditions.values()],
    materials: [...knowledge.materials.values()],
    remedies: [...knowledge.remedies.values()],
    printers: named(['Heron', 'Wren', 'Magpie']),
    spools: named(['A-12 black ABS', 'A-15 grey ABS', 'P-03 white PLA']),
  },
  createWordBook(knowledge.words),
);

/** "stringing heavy", "polymer abs", "tried dry-the-spool not-cured", in short. */
function short(chip: Chip): string {
  switch (chip.kind) {
    case 'observation':
      return `${chip.id} ${chip.value ?? '?'}`;
    case 'condition':
      return `${chip.id} ${chip.value}`;
    case 'tried':
      return `tried ${chip.id} ${chip.outcome}`;
    case 'printer':
    case 'spool':
      return `${chip.kind} ${chip.id}`;
  }
}
const sure = (text: string) =>
  understand(text)
    .filter(({ isSure }) => isSure)
    .map(short);
const offered = (text: string) =>
  understand(text)
    .filter(({ isSure }) => !isSure)
    .map(short);

// The signs of wet filament that a newcomer is told first (common practice), as they are said.
describe('the usual wet case', () => {
  const WET = ['popping-while-loading ?', 'vapour-at-head ?', 'bubbly-free-air-extrusion ?'];

  it.each([
    'spits when loading, vapour, bubbles',
    'snapping sounds while loading, steam at the nozzle, bubbles',
  ])('"%s" is understood without asking back', (text) => expect(sure(text)).toEqual(WET));
});

describe('a whole sentence', () => {
  const text = 'stops extruding after an hour on Heron, new spool of black ABS, 0.6 nozzle, 250 degrees';

  it('gives printer, circumstances and numbers', () =>
    expect(sure(text)).toEqual(
      expect.arrayContaining([
        'printer Heron',
        'last-change new-spool',
        'polymer abs',
        'nozzle-mm 0.6',
        'nozzle-temperature 250',
      ]),
    ));

  it('gives what is seen and when, and offers the one spool that is called so', () => {
    expect([...sure(text), ...offered(text)]).toEqual(
      expect.arrayContaining(['gaps-after-good-start present', 'only-after-hours present']),
    );
    expect(offered(text)).toContain('spool A-12 black ABS');
  });

  it('says of each chip which words it came from', () => {
    const chips = understand(text);
    for (const { said, places } of chips) {
      expect(text).toContain(said);
      for (const { from, to } of places) expect(to).toBeGreaterThan(from);
    }
    expect(chips.find(({ kind }) => kind === 'printer')?.said).toBe('Heron');
    expect(chips.find((chip) => short(chip) === 'nozzle-mm 0.6')?.said).toBe('0.6 nozzle');
  });
});

describe('what is seen', () => {
  it.each([
    ['heavy stringing', ['stringing heavy']],
    ['a bit of stringing', ['stringing slight']],
    ['stringing', ['stringing ?']],
    ['no stringing', ['stringing none']],
    ['no stringing but blobs', ['stringing none', 'blobs-and-zits ?']],
    ['first layer does not stick', ['first-layer-not-sticking ?']],
    ['nothing comes out', ['nothing-comes-out present']],
    ['PLA warps with the door closed', ['polymer pla', 'corners-lift ?', 'enclosure closed']],
    ['without stringing', ['stringing none']],
  ])('%s', (text, wanted) => expect(sure(text)).toEqual(wanted));

  it.each(['moving along', 'hello there', '', '12345', 'the printer is old', 'please help me'])(
    'takes nothing for granted from %j',
    (text) => expect(sure(text)).toEqual([]),
  );

  // Said of the sign and of what is found on opening; of the filament, of the extruder and of a spark.
  it.each([
    ['nozzle blocked', 'nothing-comes-out present'],
    ['nozzle blocked', 'jam-in-nozzle present'],
    ['without popping', 'popping-while-loading none'],
  ])('%s offers %s and takes nothing', (text, wanted) => {
    expect(offered(text)).toContain(wanted);
    expect(sure(text)).toEqual([]);
  });

  it('does not read a part that sticks as one that does not', () =>
    expect(sure('first layer sticks')).not.toContain('first-layer-not-sticking ?'));
});

describe('circumstances', () => {
  it.each([
    ['0.4 mm brass nozzle', ['nozzle-mm 0.4', 'nozzle-material brass']],
    ['nozzle 0,8', ['nozzle-mm 0.8']],
    ['nozzle 235 C, bed 60', ['nozzle-temperature 235', 'plate-temperature 60']],
    ['PETG 235/75 C', ['nozzle-temperature 235', 'plate-temperature 75', 'polymer petg']],
    ['printed at 480 F', ['nozzle-temperature 249']],
    ['humidity 65 %', ['room-humidity 65']],
    ['left out for 3 days', ['storage open', 'exposure-hours 72']],
    ['ABS with 15 % carbon', ['filler-percent 15', 'polymer abs', 'filler carbon-fibre']],
    ['fan 100%', ['part-fan 100']],
    ['since the firmware update', ['last-change firmware']],
  ])('%s', (text, wanted) => expect(sure(text).sort()).toEqual([...wanted].sort()));

  it.each([
    ['better with 10 degrees hotter', 'nozzle-temperature'],
    ['0.5 mm play', 'nozzle-mm'],
    ['connected by USB to the PC', 'polymer'],
    ['nozzle 900 C', 'nozzle-temperature'],
    ['fine with PETG', 'polymer petg'],
  ])('%s says nothing of %s', (text, condition) =>
    expect(sure(text).filter((one) => one.startsWith(condition))).toEqual([]),
  );

  it('asks which nylon', () =>
    expect(offered('nylon')).toEqual(expect.arrayContaining(['polymer pa6', 'polymer pa12'])));
});

describe('printers and spools', () => {
  it.each([
    ['popping on wren', 'printer Wren'],
    ['with A-12', 'spool A-12 black ABS'],
    ['a12 on Magpie', 'spool A-12 black ABS'],
    ['spool P 03', 'spool P-03 white PLA'],
  ])('%s', (text, wanted) => expect(sure(text)).toContain(wanted));

  it('offers no spool where two are called so', () => expect(offered('ABS')).toEqual([]));
});

describe('what was tried or compared', () => {
  it.each([
    ['dried it, no change', 'tried dry-the-spool not-cured'],
    ['dried the spool and it is a bit better', 'tried dry-the-spool better'],
    ['swapped the nozzle, no difference', 'tried change-nozzle not-cured'],
    ['another spool is no better', 'other-spool-clean absent'],
    ['fine on the other printer', 'other-printer-clean present'],
    ['other slicer made no difference', 'other-slicer-clean absent'],
  ])('%s', (text, wanted) => expect(sure(text)).toContain(wanted));

  it('offers what "not moisture" would mean, and does not take it', () => {
    expect(sure('not moisture')).toEqual([]);
    expect(offered('not moisture')).toEqual(['dried-spool-clean absent']);
  });
});
