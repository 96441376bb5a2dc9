import path from 'node:path';
import { today } from '../../src-core/knowledge/former-ids.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { compareAll, meanDivergence, type Comparison } from './compare.ts';
import { readExpectations } from './expectations.ts';

// `npm run expectation`: the network held against what leads expect, complaint by complaint.
const root = path.join(import.meta.dirname, '..', '..');
const knowledge = readKnowledge(root, programVersion(root));
const expectations = readExpectations((id) => today(knowledge.former.causes, id));
const comparisons = compareAll(knowledge, expectations);
const percent = (share: number) => `${Math.round(100 * share)} %`;
const firstOf = (shares: ReadonlyMap<string, number>) =>
  [...shares]
    .sort((a, b) => b[1] - a[1])
    .slice(0, 6)
    .map(([id, share]) => `${id} ${percent(share)}`)
    .join(', ');
const nameOf = ({ expectation: { id, conditions } }: Comparison) =>
  [id, ...Object.entries(conditions).map(([key, value]) => `${key} ${value}`)].join(' + ');

for (const one of [...comparisons].sort((a, b) => b.divergenceBits - a.divergenceBits)) {
  console.log(`${nameOf(one)} (${one.expectation.readers} readers, ${one.divergenceBits.toFixed(3)} bits)`);
  console.log(`  expected: ${firstOf(one.expected)}`);
  console.log(`  network:  ${firstOf(one.network)}`);
  if (one.missed.length > 0) console.log(`  expected and not among the first five: ${one.missed.join(', ')}`);
  if (one.intruders.length > 0)
    console.log(`  among the first five and not expected: ${one.intruders.join(', ')}`);
}
const groups = [
  ['complaints', comparisons.filter(({ expectation }) => Object.keys(expectation.conditions).length === 0)],
  [
    'complaint and circumstance',
    comparisons.filter(({ expectation }) => Object.keys(expectation.conditions).length > 0),
  ],
] as const;
for (const [name, group] of groups) {
  const count = (pick: (one: Comparison) => readonly string[]) =>
    group.reduce((sum, one) => sum + pick(one).length, 0);
  console.log(
    `\n${name}: ${group.length}; mean divergence ${meanDivergence(group).toFixed(3)} bits, with what no reader named as something else ${meanDivergence(group, 'namedDivergenceBits').toFixed(3)}; expected at 10 % and not among the first five: ${count((one) => one.missed)}; among the first five at under 1 %: ${count((one) => one.intruders)}`,
  );
}
