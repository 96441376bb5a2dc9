import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import { OUTCOMES } from '../../src-core/contract/case-event.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { readCaseFile } from '../../src-main/command/case-file.ts';
import { diagnose, type Diagnosis } from '../../src-main/command/diagnose.ts';

export const CASE_KINDS = [
  'typical',
  'thin',
  'misleading',
  'two-causes',
  'null-results',
  'moisture-in-vain',
  'opposite-cures',
] as const;

const referenceCaseSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  kind: z.enum(CASE_KINDS),
  story: z.string().min(20).max(300),
  conditions: z.record(z.string(), z.union([z.string(), z.number()])),
  findings: z.record(z.string(), z.union([z.string(), z.number()])),
  tried: z.array(z.strictObject({ remedy: z.string(), outcome: z.enum(OUTCOMES) })).default([]),
  accepted: z.array(z.string()).min(1),
  acceptedNext: z.strictObject({
    checks: z.array(z.string()).default([]),
    remedies: z.array(z.string()).default([]),
  }),
});
export type ReferenceCase = z.infer<typeof referenceCaseSchema>;

const FOLDER = path.join(import.meta.dirname, '..', '..', 'knowledge', 'reference-cases');

/** Every case of knowledge/reference-cases, in file order. */
export function readReferenceCases(): ReferenceCase[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith('.yaml'))
    .sort()
    .flatMap((file) =>
      z.array(referenceCaseSchema).parse(parse(readFileSync(path.join(FOLDER, file), 'utf8'))),
    );
}

export interface Answer {
  readonly diagnosis: Diagnosis;
  /** Place (from 1) of the best accepted cause; every cause is ranked. */
  readonly rank: number;
  /** Whether an experienced lead would do next what the program proposes. */
  readonly isNextAccepted: boolean;
}

/** The program's answer, through the same door as the command line. Throws when the case is not told in the guide's ids. */
export function answerTo(knowledge: Knowledge, referenceCase: ReferenceCase): Answer {
  const { id, conditions, findings, tried, accepted, acceptedNext } = referenceCase;
  const read = readCaseFile(JSON.stringify({ conditions, findings, tried }), id, knowledge);
  if (!read.ok) throw new Error(read.faults.join('\n'));
  const diagnosis = diagnose(knowledge, read.caseFile);
  const { kind, id: next } = diagnosis.next;
  return {
    diagnosis,
    rank: diagnosis.candidates.findIndex(({ cause }) => accepted.includes(cause)) + 1,
    isNextAccepted:
      (kind === 'check' && acceptedNext.checks.includes(next)) ||
      (kind === 'remedy' && acceptedNext.remedies.includes(next)),
  };
}

/** Share (0–1) of ranks that are `place` or better. */
export function shareWithin(ranks: readonly number[], place: number): number {
  return ranks.filter((rank) => rank >= 1 && rank <= place).length / ranks.length;
}
