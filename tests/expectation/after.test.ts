import { describe, expect, it } from 'vitest';
import { AFTER_GRADES, FACETS } from '../../src-core/knowledge/facets-schema.ts';
import { today } from '../../src-core/knowledge/former-ids.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { expectedGrades, readAfter } from './after.ts';
import { SOMETHING_ELSE } from './expectations.ts';

const knowledge = shippedKnowledge();
const changes = readAfter((id) => today(knowledge.former.causes, id));

/** Wear is no event that anybody names. */
const EVENTS = FACETS.after.filter((event) => event !== 'wear');

describe('what readers expect after each change', () => {
  it('covers every change, with causes that the guide knows', () => {
    expect([...changes.keys()].toSorted()).toEqual([...EVENTS].toSorted());
    const named = [...changes.values()].flatMap(({ shares }) => [...shares.keys()]);
    expect(named.filter((id) => id !== SOMETHING_ELSE && !knowledge.causes.has(id))).toEqual([]);
    for (const { shares } of changes.values()) expect(shares.size).toBeGreaterThan(10);
  });

  it('stands in the guide, seldom more than one grade off', () => {
    const place = (grade: string | null | undefined) =>
      grade ? AFTER_GRADES.findIndex((one) => one === grade) : AFTER_GRADES.length;
    const rows = expectedGrades(knowledge, changes);
    const far = rows.filter(({ event, cause, grade }) => {
      const stated = Object.entries(knowledge.causes.get(cause)?.facets?.after ?? {});
      const given = stated.find(([change]) => change === event)?.[1];
      return Math.abs(place(given) - place(grade)) > 1;
    });
    expect(rows.length).toBeGreaterThan(500);
    expect(far.length / rows.length).toBeLessThan(0.05);
  });

  it('leaves no change to a crowd of causes that all mostly come of it', () => {
    for (const event of EVENTS) {
      const mostly = [...knowledge.causes.values()].filter(
        ({ facets }) => facets?.after?.[event] === 'mostly',
      );
      expect(mostly.length, event).toBeGreaterThan(0);
      expect(mostly.length, event).toBeLessThanOrEqual(25);
    }
  });
});
