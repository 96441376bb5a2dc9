import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { readCaseFile } from '../../src-main/command/case-file.ts';
import { diagnose, type Diagnosis } from '../../src-main/command/diagnose.ts';

const openCaseSchema = z.strictObject({
  id: z.string(),
  conditions: z.record(z.string(), z.union([z.string(), z.number()])),
  findings: z.record(z.string(), z.union([z.string(), z.number()])),
  tried: z.array(z.unknown()).default([]),
  accepted: z.array(z.string()).min(1),
  lead: z.strictObject({ accepts: z.enum(['yes', 'partly', 'no']), because: z.string() }),
});
export type OpenCase = z.infer<typeof openCaseSchema>;

export function readOpenCases(): OpenCase[] {
  const text = readFileSync(path.join(import.meta.dirname, 'open-cases.yaml'), 'utf8');
  return z.array(openCaseSchema).parse(parse(text));
}

/** The program's answer, through the same door as the command line, and the rank (from 1) of the best accepted cause. */
export function answerTo(knowledge: Knowledge, openCase: OpenCase): { diagnosis: Diagnosis; rank: number } {
  const { conditions, findings, tried } = openCase;
  const read = readCaseFile(JSON.stringify({ conditions, findings, tried }), openCase.id, knowledge);
  if (!read.ok) throw new Error(read.faults.join('\n'));
  const diagnosis = diagnose(knowledge, read.caseFile);
  return {
    diagnosis,
    rank: diagnosis.candidates.findIndex(({ cause }) => openCase.accepted.includes(cause)) + 1,
  };
}
