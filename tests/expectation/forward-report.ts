import path from 'node:path';
import { today } from '../../src-core/knowledge/former-ids.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { readExpectations } from './expectations.ts';
import { FORWARD_FILE, forwardGaps, readForward } from './forward.ts';
import { raiseLinks } from './raise-links.ts';

/*
 * `npm run expectation:forward [-- --write]`: causes held against what a reader expects of each, the other way round than the
 * tables were made. Lists what a tenth of the shops would name, or three tenths of those who look would find, and the network
 * gives less than a third of that chance. With --write it raises complaints in the tables, down to 3 %, for a person to read.
 */
const LEAST_WRITTEN = { complaint: 0.03, sign: Number.POSITIVE_INFINITY };

const root = path.join(import.meta.dirname, '..', '..');
const knowledge = readKnowledge(root, programVersion(root));
const rows = readForward(FORWARD_FILE, (id) => today(knowledge.former.causes, id));
const expectations = readExpectations((id) => today(knowledge.former.causes, id));
const percent = (share: number) => `${Math.round(100 * share)} %`.padStart(5);

const gaps = forwardGaps(knowledge, rows, expectations);
for (const { observation, cause, expected, network, proposed } of [...gaps].sort((a, b) =>
  a.observation.localeCompare(b.observation),
)) {
  console.log(
    `${observation.padEnd(32)} ${cause.padEnd(32)} expected ${percent(expected)}, network ${percent(network)}, between ${percent(proposed)}`,
  );
}
const complaints = gaps.filter(({ isComplaint }) => isComplaint).length;
console.log(`${rows.length} causes; far short: ${complaints} complaints, ${gaps.length - complaints} signs`);

if (process.argv.includes('--write')) {
  const written = forwardGaps(knowledge, rows, expectations, LEAST_WRITTEN);
  const left = raiseLinks(path.join(root, 'knowledge', 'links'), knowledge, written);
  console.log(`${written.length - left.length} written; without a table:`);
  for (const { observation, cause, proposed } of left)
    console.log(`  ${observation} ${cause} ${percent(proposed)}`);
}
