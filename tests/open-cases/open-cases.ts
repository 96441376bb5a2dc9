import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import { today } from '../../src-core/knowledge/former-ids.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { readCaseFile, type CaseFile } from '../../src-main/command/case-file.ts';
import { diagnose, type Diagnosis } from '../../src-main/command/diagnose.ts';

const realCaseSchema = z.strictObject({
  id: z.string(),
  conditions: z.record(z.string(), z.union([z.string(), z.number()])),
  findings: z.record(z.string(), z.union([z.string(), z.number()])),
  tried: z.array(z.unknown()).default([]),
  accepted: z.array(z.string()).min(1),
});
const openCaseSchema = realCaseSchema.extend({
  lead: z.strictObject({ accepts: z.enum(['yes', 'partly', 'no']), because: z.string() }),
});
const furtherCaseSchema = realCaseSchema.extend({ answerable: z.boolean() });
export type RealCase = z.infer<typeof realCaseSchema>;
export type OpenCase = z.infer<typeof openCaseSchema>;
export type FurtherCase = z.infer<typeof furtherCaseSchema>;

/** The 21 cases with a lead's judgement of the answer. */
export function readOpenCases(): OpenCase[] {
  return z.array(openCaseSchema).parse(read('open-cases.yaml'));
}

/** The 68 cases that were mapped and judged by people apart; mapped anew, again and a third time by others, to the words of 28 November. */
export function readFurtherCases(mapping: 'first' | 'anew' | 'again' | 'third' = 'first'): FurtherCase[] {
  return z
    .array(furtherCaseSchema)
    .parse(read(mapping === 'first' ? 'more-cases.yaml' : `more-cases-${mapping}.yaml`));
}

/**
 * The cases that were found in public threads afterwards and whose cause the guide knows: all, or of some parts (what stands before
 * the last two digits of the id). What was shown to whoever mended the guide, and when, stands in the file.
 */
export function readFoundCases(parts?: readonly number[]): FurtherCase[] {
  const all = z.array(furtherCaseSchema).parse(read('found-cases.yaml'));
  return all.filter(({ id }) => parts?.includes(Number(id.slice(1, -2))) ?? true);
}

function read(file: string): unknown {
  return parse(readFileSync(path.join(import.meta.dirname, file), 'utf8'));
}

export interface Answer {
  readonly diagnosis: Diagnosis;
  /** Place of the best accepted cause, from 1; 0 when it is no candidate. */
  readonly rank: number;
}

/** What was found of a case, as the command line reads it. Throws with the faults of one that cannot be read. */
export function caseFileOf(
  knowledge: Knowledge,
  id: string,
  { conditions, findings, tried }: Pick<RealCase, 'conditions' | 'findings' | 'tried'>,
): CaseFile {
  const read = readCaseFile(JSON.stringify({ conditions, findings, tried }), id, knowledge);
  if (!read.ok) throw new Error(read.faults.join('\n'));
  return read.caseFile;
}

/** The program's answer, through the same door as the command line; accepted causes may have their former ids. */
export function answerTo(knowledge: Knowledge, openCase: RealCase): Answer {
  const accepted = openCase.accepted.map((id) => today(knowledge.former.causes, id));
  const diagnosis = diagnose(knowledge, caseFileOf(knowledge, openCase.id, openCase));
  return { diagnosis, rank: diagnosis.candidates.findIndex(({ cause }) => accepted.includes(cause)) + 1 };
}
