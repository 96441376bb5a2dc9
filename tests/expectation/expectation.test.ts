import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { today } from '../../src-core/knowledge/former-ids.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { compareAll, meanDivergence } from './compare.ts';
import { readExpectations, SOMETHING_ELSE } from './expectations.ts';

// Measured with the guide of 323 causes: 0.072 bits over 162 complaints (0 alike, 1 without anything in common).
const LARGEST_DIVERGENCE_BITS = 0.09;

const knowledge = shippedKnowledge();
const folder = path.join(import.meta.dirname, '..', '..', 'expectations', 'readers');

interface Row {
  readonly id: string;
  readonly with?: Readonly<Record<string, unknown>>;
  readonly from: Readonly<Record<string, number>>;
}

describe('what readers expect', () => {
  const { former } = knowledge;
  it.each(readdirSync(folder).sort())('%s names only what the guide knows or knew', (file) => {
    const { rows } = parse(readFileSync(path.join(folder, file), 'utf8')) as { rows: Row[] };
    expect(rows.length).toBeGreaterThan(0);
    const unknown = rows.flatMap((row) => [
      ...(knowledge.observations.has(today(former.observations, row.id)) ? [] : [`observation ${row.id}`]),
      ...Object.keys(row.from)
        .filter((id) => id !== SOMETHING_ELSE && !knowledge.causes.has(today(former.causes, id)))
        .map((id) => `cause ${id}`),
      ...Object.keys(row.with ?? {})
        .filter((id) => !knowledge.conditions.has(today(former.conditions, id)))
        .map((id) => `condition ${id}`),
    ]);
    expect([...new Set(unknown)]).toEqual([]);
  });
});

describe('the network against what readers expect', () => {
  const comparisons = compareAll(
    knowledge,
    readExpectations((id) => today(knowledge.former.causes, id)),
  );
  const alone = comparisons.filter(({ expectation }) => Object.keys(expectation.conditions).length === 0);

  it('ranks every cause expected in a tenth of a complaint among the first five', () => {
    expect(alone.length).toBeGreaterThan(100);
    const missed = alone.flatMap(({ expectation, missed: ids }) =>
      ids.map((id) => `${expectation.id}: ${id}`),
    );
    expect(missed).toEqual([]);
  });

  it('diverges no further than measured', () => {
    expect(meanDivergence(alone)).toBeLessThan(LARGEST_DIVERGENCE_BITS);
  });
});
