import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { ForwardGap } from './forward.ts';

/** Share of a strength that its next higher grade has where the table does not say. */
const NEXT_GRADE = 0.5;

/** What readers called something else was in part what is now named: the leak gives way, to this share of it at the least. */
const LEAST_LEFT_OF_LEAK = 0.5;

/**
 * Writes proposed strengths into the tables under `knowledge/links`, line by line, so that what a person amended there stays.
 * Returns the gaps of observations that have no table: their links stand with the cause.
 */
export function raiseLinks(
  folder: string,
  knowledge: Knowledge,
  gaps: readonly ForwardGap[],
): readonly ForwardGap[] {
  const left = new Map(gaps.map((gap) => [`${gap.observation} ${gap.cause}`, gap]));
  for (const name of readdirSync(folder).sort()) {
    const file = path.join(folder, name);
    const lines = readFileSync(file, 'utf8').split('\n');
    let table = '';
    const out = lines.flatMap((line) => {
      table = /^ {2}- id: (\S+)/.exec(line)?.[1] ?? table;
      const [, cause] = /^ {6}([a-z-]+): /.exec(line) ?? [];
      if (/^ {4}leak:/.test(line)) {
        const added = [...left.values()].filter(({ observation }) => observation === table);
        for (const { cause: each } of added) left.delete(`${table} ${each}`);
        const rows = added.sort((a, b) => b.proposed - a.proposed).map((one) => rowOf(knowledge, one, ''));
        return [...rows, leakOf(line, massOf(gaps, table))];
      }
      const gap = cause === undefined ? undefined : left.get(`${table} ${cause}`);
      if (gap) {
        left.delete(`${table} ${gap.cause}`);
        return [rowOf(knowledge, gap, line)];
      }
      return [line];
    });
    writeFileSync(file, out.join('\n'));
  }
  return [...left.values()];
}

/** What the raised links add to how often an observation comes. */
function massOf(gaps: readonly ForwardGap[], table: string): number {
  return gaps
    .filter(({ observation }) => observation === table)
    .reduce((sum, { prior, proposed, network }) => sum + prior * (proposed - network), 0);
}

function leakOf(line: string, added: number): string {
  const most = Math.max(...(line.match(/0\.\d+/g) ?? []).map(Number));
  const share = Math.max(LEAST_LEFT_OF_LEAK, 1 - added / most);
  return line.replace(/0\.\d+/g, (figure) => String(Number((Number(figure) * share).toPrecision(2))));
}

function rowOf(knowledge: Knowledge, { observation, cause, proposed }: ForwardGap, old: string): string {
  const levels = knowledge.levelsOf(observation).slice(1);
  const figure = (value: number) => String(Number(value.toPrecision(2)));
  if (levels.length < 2) return `      ${cause}: ${figure(proposed)}`;
  const before = levels.map((level) =>
    Number(new RegExp(`${level}: ([\\d.]+)`).exec(old)?.[1] ?? Number.NaN),
  );
  const ratio = (k: number) => {
    const given = (before[k] ?? Number.NaN) / (before[0] ?? Number.NaN);
    return Number.isFinite(given) ? given : NEXT_GRADE ** k;
  };
  return `      ${cause}: { ${levels.map((level, k) => `${level}: ${figure(proposed * ratio(k))}`).join(', ')} }`;
}
