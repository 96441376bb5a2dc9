import { describe, expect, it } from 'vitest';
import { statementsByFit, weightsOfComplaints } from '../../src-renderer/statements/fitting-statements.ts';
import { STATEMENT_GROUPS, valuesOf } from '../../src-renderer/statements/statement-groups.ts';
import { shippedGuideBook } from './shipped-guide-book.ts';
import { cause, observation, smallGuideBook } from './small-guide-book.ts';

const byHand = smallGuideBook({
  observations: [
    observation('strings', 0.01, 1),
    observation('gaps', 0.01, 1),
    observation('new-spool', 0.01, 1, { group: 'before' }),
    observation('belts-done', 0.01, 1, { group: 'before' }),
    observation('one-axis', 0.01, 1, { group: 'place' }),
  ],
  facetTables: [
    {
      id: 'new-spool',
      given: { 'after.new-spool': 0.8 },
      otherwise: 0.05,
      notStated: 0.2,
      source: 'estimate',
    },
  ],
  causes: [
    cause('wet', { strings: 0.9 }, { facets: { after: ['new-spool'] } }),
    cause('loose-belt', { gaps: 0.9, 'belts-done': 0.6 }, { facets: { after: ['motion-work'] } }),
  ],
});

describe('statements that fit a complaint', () => {
  it('stand first by what its causes show, by facets or by a link of their own', () => {
    const first = (complaint: string) =>
      statementsByFit(byHand, weightsOfComplaints(byHand, [complaint])).get('before')?.[0]?.id;
    expect(first('strings')).toBe('new-spool');
    expect(first('gaps')).toBe('belts-done');
  });

  it('keep the guide’s order while nothing is complained of', () => {
    const order = statementsByFit(byHand, weightsOfComplaints(byHand, [])).get('before');
    expect(order?.map((one) => one.id)).toEqual(['new-spool', 'belts-done']);
  });

  it('are offered whole in the shipped guide: every grouped observation stands in a group that is shown', () => {
    const book = shippedGuideBook();
    const groups = statementsByFit(book, weightsOfComplaints(book, ['stringing']));
    const shown = new Set(STATEMENT_GROUPS.flatMap(({ id }) => groups.get(id) ?? []));
    expect(shown.size).toBe(book.guide.observations.filter((one) => one.group !== undefined).length);
    expect(shown.size).toBeGreaterThan(200);
  });

  it('can be said in every way that the contract takes', () => {
    expect(valuesOf(observation('a', 0.1, 1)).map((one) => one.value)).toEqual([
      'present',
      'absent',
      'probably',
      'sometimes',
    ]);
    const graded = observation('b', 0.1, 1, {
      grades: [
        { id: 'none', label: 'None' },
        { id: 'slight', label: 'Slight' },
        { id: 'heavy', label: 'Heavy' },
      ],
    });
    expect(valuesOf(graded).map((one) => one.value)).toEqual([
      'present',
      'none',
      'slight',
      'heavy',
      'probably',
      'sometimes',
    ]);
  });
});
