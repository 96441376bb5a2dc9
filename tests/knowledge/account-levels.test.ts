import { describe, expect, it } from 'vitest';
import { accountChance } from '../../src-core/knowledge/account-levels.ts';
import type { FacetTable } from '../../src-core/knowledge/facets-schema.ts';
import type { Cause } from '../../src-core/knowledge/schema.ts';
import { cause } from '../differential/small-guide.ts';

const table: FacetTable = {
  id: 'after-nozzle-change',
  given: { 'after.nozzle-change': 0.55, 'after.hot-end-work': 0.55 },
  otherwise: 0.02,
  notStated: 0.045,
  source: 'estimate',
};
const chanceWith = (facets: Cause['facets']) => accountChance(cause('a', {}, { facets }), table, 0, 0.01);

describe('a change before the trouble', () => {
  it('is said more often, the more often the cause arises so', () => {
    const { probability: mostly, because } = chanceWith({ after: { 'nozzle-change': 'mostly' } });
    const { probability: often } = chanceWith({ after: { 'nozzle-change': 'often' } });
    const { probability: sometimes } = chanceWith({ after: { 'nozzle-change': 'sometimes' } });
    expect(because).toBe('facet');
    expect(mostly).toBeCloseTo(0.55, 12);
    expect(often).toBeCloseTo(0.25, 2);
    expect(sometimes).toBeCloseTo(0.1, 2);
  });

  it('counts by the change that fits best', () => {
    const { probability } = chanceWith({ after: { 'nozzle-change': 'sometimes', 'hot-end-work': 'mostly' } });
    expect(probability).toBeCloseTo(0.55, 12);
  });

  it('speaks against a cause that arises otherwise, and not at all where nothing is stated', () => {
    expect(chanceWith({ after: { 'new-spool': 'mostly' } })).toEqual({
      probability: 0.02,
      because: 'stated otherwise',
    });
    expect(chanceWith({ sits: ['nozzle'] })).toEqual({ probability: 0.045, because: 'not stated' });
    expect(chanceWith(undefined)).toEqual({ probability: 0.045, because: 'not stated' });
  });
});

describe('other facets', () => {
  const place: FacetTable = {
    id: 'x',
    given: { 'where.seam': 0.8 },
    otherwise: 0.05,
    notStated: 0.2,
    source: 'estimate',
  };
  const chance = (where: NonNullable<Cause['facets']>['where']) =>
    accountChance(cause('a', {}, { facets: { where } }), place, 0, 0.01).probability;

  it('say less of what stands late in a long list', () => {
    expect(chance(['corners', 'seam'])).toBeCloseTo(0.8, 12);
    expect(chance(['corners', 'overhangs', 'top-faces', 'seam'])).toBeCloseTo(0.5, 2);
  });

  it('answer their own question only', () => {
    const course: FacetTable = {
      id: 'y',
      given: { 'when.heating-up': 0.7 },
      otherwise: 0.02,
      notStated: 0.05,
      source: 'estimate',
    };
    const told = (facets: Cause['facets']) =>
      accountChance(cause('a', {}, { facets }), course, 0, 0.01).because;
    expect(told({ when: ['suddenly', 'now-and-then'] })).toBe('not stated');
    expect(told({ when: ['suddenly', 'first-layer'] })).toBe('stated otherwise');
    expect(told({ where: ['one-axis'] })).toBe('not stated');
  });

  it('take a value that speaks against as no answer to what the others are for', () => {
    const sudden: FacetTable = {
      id: 'z',
      given: { 'when.suddenly': 0.5, 'after.rebuild': 0.05 },
      otherwise: 0.12,
      notStated: 0.22,
      source: 'estimate',
    };
    const { because } = accountChance(
      cause('a', {}, { facets: { after: { wear: 'mostly' } } }),
      sudden,
      0,
      0.01,
    );
    expect(because).toBe('not stated');
  });

  it('make their mean where a cause can come either way, but not of where it sits', () => {
    const either: FacetTable = {
      id: 'w',
      given: {
        'when.suddenly': 0.5,
        'when.worse-over-weeks': 0.06,
        'sits.spool': 0.9,
        'sits.polymer': 0.12,
      },
      otherwise: 0.12,
      notStated: 0.22,
      source: 'estimate',
    };
    const told = (facets: Cause['facets']) =>
      accountChance(cause('a', {}, { facets }), either, 0, 0.01).probability;
    expect(told({ when: ['suddenly', 'worse-over-weeks'] })).toBeCloseTo(0.28, 12);
    expect(told({ sits: ['spool', 'polymer'] })).toBeCloseTo(0.9, 12);
  });
});
