import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { CAUSE_NOT_IN_GUIDE, compileKnowledge, levelsOf } from '../../src-core/knowledge/compile.ts';
import { throughMechanisms } from '../../src-core/knowledge/account-levels.ts';
import { today } from '../../src-core/knowledge/former-ids.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { strengthProbability } from '../../src-core/knowledge/scale.ts';
import type { Observation } from '../../src-core/knowledge/schema.ts';
import { readKnowledgeFolder } from '../../src-main/knowledge/read-folder.ts';
import { readExpectations, type Expectation } from './expectations.ts';

/*
 * `node tests/expectation/fit.ts [--write] [--priors]`: proposes priors and link tables from what leads expect; a person reads the
 * difference and decides. Afterwards `npm run expectation:forward -- --write` puts back what is rare but real.
 *
 * With one cause at a time P(cause | finding) is prior times strength over their sum. The shares s that readers expect of a
 * finding therefore ask for strengths proportional to s / prior, and the shares of all complaints, each weighed by how often it
 * comes, add up to the priors. The scale of a table is free: the causes that show the finding most surely get LARGEST.
 */
const LARGEST = 0.9;
/** Causes that together have at most this share may need more than LARGEST and are cut there. */
const CUT_SHARE = 0.08;
const CEILING = 0.96;
const FLOOR = 0.004;
/** A prior moves at most this far from what the guide's author wrote, as a factor. */
const BAND = 3;
/** A cause that readers hardly name keeps at least this share of the author's figure before the two are met half way. */
const LEAST_NAMED = 0.25;
/**
 * Largest share of a complaint that a cause linked by the guide's author has where no reader named it. Readers name some
 * fifteen of each, seldom under one of a hundred: what they leave out may be as rare as that, and is no less sure to show it.
 */
const AUTHORS_SHARE = 0.008;
/** Its strength, against the author's own. */
const UNNAMED_SCALE = 0.6;
/** Strength, against the author's own, of a link to a finding that no reader thought of. */
const AUTHORS_SCALE = 0.7;
/** Share under which a reader's thought about a finding is no link. */
const LEAST_FINDING_SHARE = 0.012;

const root = path.join(import.meta.dirname, '..', '..');
const folder = path.join(root, 'knowledge');
const isWriting = process.argv.includes('--write');
const isWritingPriors = process.argv.includes('--priors');
const loaded = loadKnowledge(readKnowledgeFolder(folder));
if (!loaded.ok) throw new Error(loaded.faults.map(({ message }) => message).join('\n'));
// The author's guide, without the tables that this tool writes.
const authors = compileKnowledge(
  loaded.files.map(({ linkTables: _tables, ...rest }) => rest),
  'author',
);
const expectations = readExpectations((id) => today(authors.former.causes, id)).filter(
  ({ id, conditions }) => authors.observations.has(id) && Object.keys(conditions).length === 0,
);
const isComplaint = ({ id }: Expectation) => authors.observations.get(id)?.complaint === true;
const complaints = expectations.filter(isComplaint);

const priors = isWritingPriors ? fittedPriors(authors, complaints) : presentPriors(authors);
const tables = new Map<string, string[]>();
for (const expectation of expectations) {
  const observation = authors.observations.get(expectation.id);
  if (!observation || observation.measure) continue;
  if (!isComplaint(expectation) && (observation.kind === 'pattern' || observation.kind === 'comparison'))
    continue;
  const rows = isComplaint(expectation)
    ? complaintTable(observation, expectation)
    : findingTable(observation, expectation);
  tables.set(observation.place, [...(tables.get(observation.place) ?? []), ...rows]);
}
console.log(
  `${expectations.length} expectations, ${[...tables.values()].flat().length} lines, ${priors.size} priors`,
);
if (isWriting) write();

function presentPriors(knowledge: Knowledge): ReadonlyMap<string, number> {
  return new Map([...knowledge.causes.values()].map(({ id, prior }) => [id, prior.perHundredCases]));
}

/** Of a hundred cases, how many have each cause: what the complaints add up to, met half way with the author's figure. */
function fittedPriors(knowledge: Knowledge, rows: readonly Expectation[]): ReadonlyMap<string, number> {
  const weight = rows.reduce((sum, { perThousand }) => sum + (perThousand ?? 0), 0);
  const added = new Map<string, number>();
  for (const { perThousand, shares } of rows)
    for (const [id, share] of shares)
      added.set(id, (added.get(id) ?? 0) + (100 * (perThousand ?? 0) * share) / weight);
  return new Map(
    [...knowledge.causes.values()].map(({ id, prior }) => {
      const own = prior.perHundredCases;
      if (id === CAUSE_NOT_IN_GUIDE) return [id, own];
      // Readers name the likeliest only: what they leave out is rarer than they say, not absent.
      const met = Math.sqrt(own * Math.max(added.get(id) ?? 0, own * LEAST_NAMED));
      return [id, Number(Math.min(own * BAND, Math.max(own / BAND, met)).toPrecision(2))];
    }),
  );
}

function priorOf(id: string): number {
  return (priors.get(id) ?? 0) / 100;
}

/** The author's own strength from cause to observation, by link or by mechanisms: that it is there at all. */
function authorsStrength(observation: string, cause: string): number {
  const index = authors.observationIndex.get(observation) ?? -1;
  const causeAt = authors.causeIndex.get(cause) ?? -1;
  const link = authors.graph.observations[index]?.links.find(
    ({ from }) => from.kind === 'cause' && from.index === causeAt,
  );
  const direct = link ? 1 - (link.levels[0] ?? 1) : 0;
  return 1 - (1 - direct) * (1 - throughMechanisms(authors.graph, index, causeAt));
}

function complaintTable(observation: Observation, { id, shares, somethingElse }: Expectation): string[] {
  const ratios = [...shares]
    .filter(([cause]) => priorOf(cause) > 0)
    .map(([cause, share]) => ({ cause, share, ratio: share / priorOf(cause) }))
    .sort((a, b) => b.ratio - a.ratio);
  let cut = 0;
  const top = ratios.find(({ share }) => (cut += share) > CUT_SHARE) ?? ratios[0];
  const scale = LARGEST / (top?.ratio ?? 1);
  const strengths = ratios.map(({ cause, ratio }) => [cause, Math.min(CEILING, scale * ratio)] as const);
  const mass = strengths.reduce((sum, [cause, strength]) => sum + priorOf(cause) * strength, 0);
  const unnamed = [...authors.causes.keys()].flatMap((cause): [string, number][] => {
    if (cause === CAUSE_NOT_IN_GUIDE || shares.has(cause)) return [];
    const own = UNNAMED_SCALE * authorsStrength(id, cause);
    return [[cause, Math.min(own, (AUTHORS_SHARE * mass) / priorOf(cause))]];
  });
  return tableLines(observation, [...strengths, ...unnamed], somethingElse);
}

function findingTable(observation: Observation, { id, shares, somethingElse }: Expectation): string[] {
  const named = [...shares].filter(([cause, share]) => share >= LEAST_FINDING_SHARE && priorOf(cause) > 0);
  const ratios = named.map(([cause, share]) => ({
    cause,
    ratio: share / priorOf(cause),
    own: authorsStrength(id, cause),
  }));
  const anchors = ratios
    .filter(({ own }) => own >= 0.1)
    .map(({ own, ratio }) => own / ratio)
    .sort((a, b) => a - b);
  const largest = Math.max(...ratios.map(({ ratio }) => ratio));
  const scale = anchors[anchors.length >> 1] ?? 0.7 / largest;
  const strengths = new Map<string, number>();
  for (const { cause, ratio, own } of ratios) {
    const fitted = Math.min(CEILING, scale * ratio);
    strengths.set(cause, own > 0.05 ? Math.sqrt(own * fitted) : fitted);
  }
  for (const cause of authors.causes.keys()) {
    if (cause === CAUSE_NOT_IN_GUIDE || strengths.has(cause)) continue;
    const own = authorsStrength(id, cause);
    if (own >= 0.1) strengths.set(cause, own * AUTHORS_SCALE);
  }
  return tableLines(
    observation,
    [...strengths].sort((a, b) => b[1] - a[1]),
    Math.min(0.5, somethingElse),
  );
}

/** One entry of `linkTables`, strongest first. Higher grades keep the author's ratio to the lowest, or half of it. */
function tableLines(
  observation: Observation,
  strengths: readonly (readonly [cause: string, strength: number])[],
  somethingElse: number,
): string[] {
  const kept = strengths.filter(([, strength]) => strength >= FLOOR);
  const mass = kept.reduce((sum, [cause, strength]) => sum + priorOf(cause) * strength, 0);
  const leak = Math.min(0.06, Math.max(0.0008, (mass * somethingElse) / (1 - somethingElse)));
  const from = kept.map(
    ([cause, strength]) => `      ${cause}: ${strengthText(observation, cause, strength)}`,
  );
  return [
    `  - id: ${observation.id}`,
    '    from:',
    ...from,
    `    leak: ${gradedText(observation, leak, 0.3)}`,
    '    source: estimate',
  ];
}

function strengthText(observation: Observation, cause: string, strength: number): string {
  const link = authors.causes.get(cause)?.shows.find(({ to }) => to === observation.id);
  const levels = levelsOf(observation).slice(1);
  if (levels.length < 2 || typeof link?.strength !== 'object') return gradedText(observation, strength, 0.5);
  const given = levels.map((level) =>
    strengthProbability((link.strength as Record<string, number>)[level] ?? 0.01),
  );
  const ratio = Math.min(0.9, Math.max(0.05, (given[1] ?? 0) / (given[0] ?? 1)));
  return gradedText(observation, strength, ratio);
}

function gradedText(observation: Observation, strength: number, ratio: number): string {
  const levels = levelsOf(observation).slice(1);
  const figure = (value: number) => String(Number(value.toPrecision(2)));
  if (levels.length < 2) return figure(strength);
  return `{ ${levels.map((level, k) => `${level}: ${figure(strength * ratio ** k)}`).join(', ')} }`;
}

function write(): void {
  const out = path.join(folder, 'links');
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  for (const [place, lines] of tables) {
    const head = [
      `topic: How often each cause brings about what is met - ${place}`,
      '# Proposed by tests/expectation/fit.ts from expectations/readers, then read and amended. It stands in the place of links',
      '# under "shows" of a cause.',
      'linkTables:',
    ];
    writeFileSync(path.join(out, `${place}.yaml`), `${[...head, ...lines].join('\n')}\n`);
  }
  for (const name of readdirSync(path.join(folder, 'causes'))) {
    const file = path.join(folder, 'causes', name);
    let cause = '';
    const lines = readFileSync(file, 'utf8')
      .split('\n')
      .map((line) => {
        cause = /^ {2}- id: (\S+)/.exec(line)?.[1] ?? cause;
        const prior = priors.get(cause);
        return prior === undefined ? line : line.replace(/(perHundredCases: )[\d.]+/, `$1${prior}`);
      });
    writeFileSync(file, lines.join('\n'));
  }
}
