import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import { CAUSE_NOT_IN_GUIDE } from '../../src-core/knowledge/compile.ts';
import { FACETS, type AfterGrade } from '../../src-core/knowledge/facets-schema.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { SOMETHING_ELSE } from './expectations.ts';

const fileSchema = z.strictObject({
  judgement: z.string(),
  rows: z.array(
    z.strictObject({
      event: z.enum(FACETS.after),
      /** Of 100 troubles of any kind, how many people say began so. */
      perHundred: z.number().positive().max(100),
      from: z.record(z.string(), z.number().min(0).max(100)),
    }),
  ),
});

/** What follows a change, as the mean of the passes. */
export interface AfterChange {
  /** Share (0-1) of all troubles that began so. */
  readonly rate: number;
  /** Of those, the share (0-1) of each cause. */
  readonly shares: ReadonlyMap<string, number>;
}

const folder = path.join(import.meta.dirname, '..', '..', 'expectations', 'readers');

export function readAfter(today: (id: string) => string): ReadonlyMap<string, AfterChange> {
  const files = readdirSync(folder).filter((name) => name.endsWith('-after.yaml'));
  const changes = new Map<string, { rate: number; shares: Map<string, number> }>();
  const read = files.map(
    (name) => fileSchema.parse(parse(readFileSync(path.join(folder, name), 'utf8'))).rows,
  );
  // A change that came to the guide later was not put to the earlier readers.
  const passesOf = (event: string) => read.filter((rows) => rows.some((row) => row.event === event)).length;
  for (const rows of read) {
    for (const { event, perHundred, from } of rows) {
      const passes = passesOf(event);
      const total = Object.values(from).reduce((sum, share) => sum + share, 0);
      const change = changes.get(event) ?? { rate: 0, shares: new Map<string, number>() };
      change.rate += perHundred / 100 / passes;
      for (const [id, share] of Object.entries(from)) {
        const cause = id === SOMETHING_ELSE ? id : today(id);
        change.shares.set(cause, (change.shares.get(cause) ?? 0) + share / total / passes);
      }
      changes.set(event, change);
    }
  }
  return changes;
}

/** Chance to be told of a change where the cause mostly comes of it, as in the tables of `knowledge/facets.yaml`. */
const MOSTLY = 0.55;
/** Least place between "as any cause" (0) and "mostly" (1), on log-odds, for each grade; `sometimes` is all that is left. */
const LEAST_PLACE = { mostly: 0.8, often: 0.43 };
/** A change that comes less often than by chance is left out; within rounding. */
const BY_CHANCE = 0.93;

/**
 * How often each cause named by the readers arises after a change: P(change | cause) is the change's rate times the cause's
 * share after it over its share of all troubles (Bayes). Null where that is less often than by chance.
 */
export function expectedGrades(
  knowledge: Knowledge,
  changes: ReadonlyMap<string, AfterChange>,
): { event: string; cause: string; grade: AfterGrade | null }[] {
  const causes = [...knowledge.causes.values()].filter(({ id }) => id !== CAUSE_NOT_IN_GUIDE);
  const all = causes.reduce((sum, { prior }) => sum + prior.perHundredCases, 0);
  return [...changes].flatMap(([event, { rate, shares }]) =>
    [...shares].flatMap(([cause, share]) => {
      const prior = knowledge.causes.get(cause)?.prior.perHundredCases;
      if (prior === undefined) return [];
      return [{ event, cause, grade: gradeOf((rate * share) / (prior / all), rate) }];
    }),
  );
}

function gradeOf(chance: number, rate: number): AfterGrade | null {
  if (chance < BY_CHANCE * rate) return null;
  const logOdds = (p: number) => Math.log(p / (1 - p));
  const place = (logOdds(Math.min(chance, 0.9)) - logOdds(rate)) / (logOdds(MOSTLY) - logOdds(rate));
  if (place >= LEAST_PLACE.mostly) return 'mostly';
  return place >= LEAST_PLACE.often ? 'often' : 'sometimes';
}
