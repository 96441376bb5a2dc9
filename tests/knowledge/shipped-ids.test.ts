import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { CONDITION } from '../../src-core/contract/relied-on-conditions.ts';
import {
  checkReliedOn,
  checkShippedIds,
  idsNotYetKept,
  withTodaysIds,
} from '../../src-core/knowledge/shipped-ids.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const list = readFileSync(path.join(import.meta.dirname, '..', '..', 'knowledge', 'ids.txt'), 'utf8');

/** The guide with one observation and one value of a condition under other names, with or without saying so. */
function renamed(isSaid: boolean): Knowledge {
  const observations = new Map(knowledge.observations);
  const entry = observations.get('vapour-at-head');
  if (!entry) throw new Error('no such observation');
  observations.delete('vapour-at-head');
  observations.set('steam-at-head', { ...entry, id: 'steam-at-head' });
  const polymer = knowledge.conditions.get('polymer');
  if (!polymer) throw new Error('no such condition');
  const conditions = new Map(knowledge.conditions).set('polymer', {
    ...polymer,
    values: (polymer.values ?? []).map((one) => (one.id === 'abs' ? { ...one, id: 'abs-plain' } : one)),
  });
  if (!isSaid) return { ...knowledge, observations, conditions };
  const former = {
    ...knowledge.former,
    observations: new Map(knowledge.former.observations).set('vapour-at-head', 'steam-at-head'),
    values: new Map(knowledge.former.values).set('polymer', new Map([['abs', 'abs-plain']])),
  };
  return { ...knowledge, observations, conditions, former };
}

describe('ids that have shipped', () => {
  it('are all in use or named as former ones in the shipped guide', () => {
    expect(checkShippedIds(list, { ...knowledge })).toEqual([]);
  });

  it('are listed, all of them: run "npm run -s beadwright -- knowledge keep-ids" after adding entries', () => {
    expect(idsNotYetKept(list, knowledge)).toEqual([]);
    expect(withTodaysIds(list, knowledge)).toBe(list);
  });

  it('may not go without a word (A4)', () => {
    const faults = checkShippedIds(list, renamed(false));
    expect(faults.map(({ code, message }) => [code, message])).toEqual([
      ['id-gone', expect.stringContaining('"vapour-at-head"')],
      ['id-gone', expect.stringContaining('"polymer/abs"')],
    ]);
    expect(list.split('\n')[(faults[0]?.line ?? 0) - 1]).toBe('observation vapour-at-head');
  });

  it('may be renamed where the entry says what it was called', () => {
    expect(checkShippedIds(list, renamed(true))).toEqual([]);
  });

  it('are never taken out of the list', () => {
    const text = withTodaysIds(list, renamed(true));
    expect(text).toContain('\nobservation vapour-at-head\n');
    expect(text).toContain('\nobservation steam-at-head\n');
  });
});

describe('conditions that code knows by name', () => {
  it('are all in the shipped guide', () => {
    expect(checkReliedOn(knowledge)).toEqual([]);
  });

  it.each(Object.values(CONDITION))('"%s" may not go from the guide', (id) => {
    const conditions = new Map(knowledge.conditions);
    conditions.delete(id);
    expect(checkReliedOn({ conditions }).map(({ message }) => message)).toEqual([
      expect.stringContaining(`"${id}"`),
    ]);
  });
});
