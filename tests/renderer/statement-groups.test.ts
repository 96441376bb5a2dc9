import { describe, expect, it } from 'vitest';
import { groupsInOrder, STATEMENT_GROUPS, valuesOf } from '../../src-renderer/statements/statement-groups.ts';
import { shippedGuideBook } from './shipped-guide-book.ts';
import { observation } from '../differential/small-guide.ts';

describe('statements', () => {
  it('stand in their groups in the order given, the rest in the guide’s', () => {
    const groups = groupsInOrder(
      [
        observation('strings', 0.01, 1),
        observation('a', 0.01, 1, { group: 'before' }),
        observation('b', 0.01, 1, { group: 'before' }),
        observation('c', 0.01, 1, { group: 'before' }),
        observation('d', 0.01, 1, { group: 'place' }),
      ],
      ['d', 'c'],
    );
    expect(groups.get('before')?.map((one) => one.id)).toEqual(['c', 'a', 'b']);
    expect(groups.get('place')?.map((one) => one.id)).toEqual(['d']);
  });

  it('are offered whole in the shipped guide: every grouped observation stands in a group that is shown', () => {
    const book = shippedGuideBook();
    const groups = groupsInOrder(book.guide.observations, []);
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
