import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import { CAUSE_NOT_IN_GUIDE } from '../../src-core/knowledge/compile.ts';
import { AFTER_GRADES, FACETS, type AfterGrade } from '../../src-core/knowledge/facets-schema.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { SOMETHING_ELSE } from './expectations.ts';

const fileSchema = z.strictObject({
  judgement: z.string(),
  rows: z.array(
    z.strictObject({
      event: z.enum(FACETS.after),
      from: z.record(z.string(), z.number().min(0).max(100)),
    }),
  ),
});

/** Of the troubles that began right after a change, the share (0-1) of each cause: mean of the passes. */
export type AfterShares = ReadonlyMap<string, ReadonlyMap<string, number>>;

const folder = path.join(import.meta.dirname, '..', '..', 'expectations', 'readers');

export function readAfter(today: (id: string) => string): AfterShares {
  const files = readdirSync(folder).filter((name) => name.endsWith('-after.yaml'));
  const events = new Map<string, Map<string, number>>();
  for (const name of files) {
    const { rows } = fileSchema.parse(parse(readFileSync(path.join(folder, name), 'utf8')));
    for (const { event, from } of rows) {
      const total = Object.values(from).reduce((sum, share) => sum + share, 0);
      const shares = events.get(event) ?? new Map<string, number>();
      for (const [id, share] of Object.entries(from)) {
        const cause = id === SOMETHING_ELSE ? id : today(id);
        shares.set(cause, (shares.get(cause) ?? 0) + share / total / files.length);
      }
      events.set(event, shares);
    }
  }
  return events;
}

/** What a change is said with at all, whatever the cause: the neutral value of the tables in `knowledge/facets.yaml`. */
const NEUTRAL = 0.045;
/** Least chance for each grade: between what the grades stand for. Below the last the change is left out. */
const LEAST: Readonly<Record<AfterGrade, number>> = { mostly: 0.33, often: 0.14, sometimes: 0.042 };

/**
 * How often each cause named by the readers arises after a change: P(change | cause) is the neutral chance times the cause's
 * share after that change over its share of all troubles (Bayes). Null where that is less often than by chance.
 */
export function expectedGrades(
  knowledge: Knowledge,
  shares: AfterShares,
): { event: string; cause: string; grade: AfterGrade | null }[] {
  const causes = [...knowledge.causes.values()].filter(({ id }) => id !== CAUSE_NOT_IN_GUIDE);
  const all = causes.reduce((sum, { prior }) => sum + prior.perHundredCases, 0);
  return [...shares].flatMap(([event, from]) =>
    [...from].flatMap(([cause, share]) => {
      const prior = knowledge.causes.get(cause)?.prior.perHundredCases;
      if (prior === undefined) return [];
      const chance = (NEUTRAL * share) / (prior / all);
      const grade = AFTER_GRADES.find((one) => chance >= LEAST[one]) ?? null;
      return [{ event, cause, grade }];
    }),
  );
}
