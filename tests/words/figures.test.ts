import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Material, SpoolBody } from '../../src-core/knowledge/schema.ts';
import { CONDITION } from '../../src-core/contract/relied-on-conditions.ts';
import { dryingRecipe as dryingRecipeOf } from '../../src-core/session/drying-recipe.ts';
import { fillText as fillTextOf } from '../../src-core/session/filled-text.ts';
import {
  fillFigures as fill,
  hasFigures,
  propertyFigure,
  type FigureSources,
} from '../../src-core/words/guide-figures.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { celsius } from '../../src-core/words/message.ts';
import { chanceOfShowing } from '../../src-core/words/worded-scale.ts';
import { smallGuide } from '../differential/small-guide.ts';

type Property = NonNullable<Material['properties']['dryingTempC']>;
const of = (property: Omit<Property, 'source'>): Property => ({ ...property, source: 'estimate' });

function polymer(properties: Readonly<Record<string, Omit<Property, 'source'>>>): Material {
  return {
    id: 'pa6',
    label: 'PA 6',
    kind: 'polymer',
    alsoCalled: [],
    summary: 'A nylon.',
    properties: Object.fromEntries(Object.entries(properties).map(([name, one]) => [name, of(one)])),
  };
}
const plastic: SpoolBody = {
  id: 'plastic',
  label: 'Plastic',
  highestTempC: { value: 70, source: 'estimate' },
  slowDryingHours: { low: 12, high: 24, source: 'estimate' },
};
const fillFigures = (text: string, sources: FigureSources) => inEnglish(fill(text, sources));
const RECIPE = 'Dry at {drying-temperature} for {drying-hours}, never above {drying-limit}.';

describe('figures of a material as they are said', () => {
  it.each([
    [{ low: 4, high: 6, unit: 'h' }, '4 to 6 h'],
    [{ value: 80, unit: '°C' }, '80 °C'],
    [{ value: 'good', unit: '°C' }, 'good'],
    [{ low: 0.6, unit: 'mm' }, 'at least 0.6 mm'],
    [{ high: 50, unit: '%' }, 'at most 50 %'],
    [{ low: 0, high: 20, unit: '%' }, '0 to 20 %'],
    [{ value: 0 }, '0'],
    [{}, null],
  ])('%j: %s', (property, said) => {
    const figure = propertyFigure(polymer({ dryingTempC: property }), 'dryingTempC');
    expect(figure === null ? null : inEnglish(figure)).toBe(said);
  });

  it('of what nobody has given are none', () => {
    expect(propertyFigure(undefined, 'dryingTempC')).toBeNull();
    expect(propertyFigure(polymer({}), 'dryingTempC')).toBeNull();
  });
});

describe('a text with places for figures', () => {
  it('says where to look for each that nobody knows, and leaves no place open', () => {
    const filled = fillFigures(
      'Take {nozzle} at {nozzle-temperature}, plate {plate-temperature}, {chamber}, {part-fan}; {polymer} by {smallest-nozzle}.',
      {},
    );
    expect(filled).not.toMatch(/[{}]/);
    expect(filled).toContain('the fitted nozzle');
    expect(filled).toContain('this polymer');
    expect(fillFigures(RECIPE, {})).not.toMatch(/[{}]|undefined|null/);
  });

  it('leaves a place of another name as it stands, so that a mistyped one is seen', () => {
    expect(fillFigures('At {drying-temprature}.', {})).toBe('At {drying-temprature}.');
    expect([hasFigures('At {drying-temprature}.'), hasFigures('At {drying-temperature}.')]).toEqual([
      false,
      true,
    ]);
  });

  it('takes the bore that a filler asks for before that of its polymer', () => {
    const asks = (mm: number) => ({ smallestNozzleMm: { low: mm, unit: 'mm' } });
    const say = (filler: Material | undefined) =>
      fillFigures('{smallest-nozzle}', { polymer: polymer(asks(0.4)), filler });
    expect(say(undefined)).toBe('at least 0.4 mm');
    expect(say(polymer(asks(0.6)))).toBe('at least 0.6 mm');
    expect(say(polymer({}))).toBe('at least 0.4 mm');
  });

  it('takes what was worked out for this spool before anything general', () =>
    expect(
      fillFigures(RECIPE, {
        polymer: polymer({ dryingTempC: { low: 80, high: 90, unit: '°C' } }),
        spoolBody: plastic,
        workedOut: { 'drying-temperature': celsius(65), 'drying-hours': '9 h' },
      }),
    ).toMatch(/^Dry at 65 °C for 9 h/));
});

describe('drying where the spool gives way before the filament', () => {
  const say = (low: number, high: number, limit?: number) =>
    fillFigures(RECIPE, {
      polymer: polymer({
        dryingTempC: { low, high, unit: '°C' },
        dryingHours: { low: 4, high: 6, unit: 'h' },
        ...(limit !== undefined && { dryingMaxTempC: { value: limit, unit: '°C' } }),
      }),
      spoolBody: plastic,
    });

  it.each([
    // Wholly within what the spool bears: as the maker says.
    [50, 65, 90, 'Dry at 50 to 65 °C for 4 to 6 h, never above 70 °C on a plastic spool.'],
    [50, 70, 60, 'Dry at 50 to 70 °C for 4 to 6 h, never above 60 °C.'],
    [65, 80, 90, 'Dry at 65 to 70 °C for 4 to 6 h, never above 70 °C on a plastic spool.'],
    [70, 80, 90, 'Dry at 70 °C for 4 to 6 h, never above 70 °C on a plastic spool.'],
  ])('%i to %i °C, filament to %i °C: %s', (low, high, limit, said) =>
    expect(say(low, high, limit)).toBe(said),
  );

  it('wholly above what it bears, goes on cooler and longer, and says what a better spool allows', () => {
    const said = say(80, 90, 110);
    expect(said).toContain('Dry at 70 °C (80 to 90 °C only on a spool made for it)');
    expect(said).toContain('12 to 24 h');
    expect(
      fillFigures('{drying-temperature}', {
        polymer: polymer({ dryingTempC: { value: 80, unit: '°C' } }),
        spoolBody: plastic,
      }),
    ).toBe('70 °C (80 °C only on a spool made for it)');
  });

  it('never tells to heat a plastic spool beyond what it bears, whatever the polymer', () => {
    fc.assert(
      fc.property(fc.integer({ min: 40, max: 140 }), fc.integer({ min: 0, max: 30 }), (low, more) => {
        const [plain = ''] = say(low, low + more, 150).split(' (');
        const [, asked = ''] = /^Dry at (.*?)(?: for| \(|$)/.exec(plain) ?? [];
        for (const figure of asked.match(/\d+/g) ?? []) expect(Number(figure)).toBeLessThanOrEqual(70);
        expect(asked).toMatch(/\d/);
      }),
    );
  });
});

describe('the drying words of label, planner and remedy', () => {
  const guide = smallGuide({
    materials: [
      polymer({
        dryingTempC: { low: 80, high: 90, unit: '°C' },
        dryingHours: { low: 4, high: 6, unit: 'h' },
      }),
    ],
    spoolBodies: [plastic],
  });
  const make = { polymer: 'pa6', filler: 'none' };
  const fillText = (...given: Parameters<typeof fillTextOf>) => inEnglish(fillTextOf(...given));
  const dryingRecipe = (...given: Parameters<typeof dryingRecipeOf>) => {
    const { temperature, hours } = dryingRecipeOf(...given);
    return { temperature: inEnglish(temperature), hours: inEnglish(hours) };
  };

  it('are one: the recipe says what a step with these places says', () => {
    const { temperature, hours } = dryingRecipe(guide, make, null);
    expect(
      fillText('At {drying-temperature} for {drying-hours}.', guide, { [CONDITION.polymer]: 'pa6' }),
    ).toBe(`At ${temperature} for ${hours}.`);
    expect(temperature).toContain('70 °C');
  });

  it('of a polymer that this guide does not know say where to look', () =>
    expect(dryingRecipe(guide, { polymer: 'unobtainium', filler: 'none' }, null)).toEqual({
      temperature: "the drying temperature on the maker's sheet",
      hours: "the drying time on the maker's sheet",
    }));

  it('know the nozzle only where it is a number', () => {
    const say = (nozzle: string | number) => fillText('{nozzle}', guide, { [CONDITION.nozzleMm]: nozzle });
    expect([say(0.6), say('wide')]).toEqual(['0.6 mm', 'the fitted nozzle']);
  });
});

describe('how often a link shows its observation at all', () => {
  it('is the lowest grade’s chance, as grades are "at least", and the sum of bands, which exclude each other', () => {
    expect(chanceOfShowing({ slight: 0.7, heavy: 0.3 }, false)).toBe(0.7);
    expect(chanceOfShowing({ low: 0.5, high: 0.3 }, true)).toBeCloseTo(0.8, 12);
    expect(chanceOfShowing('usually', false)).toBe(0.85);
    expect([chanceOfShowing({}, false), chanceOfShowing({}, true)]).toEqual([0, 0]);
  });
});
