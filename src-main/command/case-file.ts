import { LineCounter, parseDocument } from 'yaml';
import { z } from 'zod';
import { OUTCOMES, TRIED_REACH, TRIED_WITH } from '../../src-core/contract/case-event.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { unknownId } from '../../src-core/knowledge/unknown-id.ts';
import { underTodaysIds } from '../../src-core/session/todays-ids.ts';
import { faultOfCondition, faultOfFinding } from '../../src-core/session/finding-level.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import type { Message } from '../../src-core/words/message.ts';

/** Characters. A case has some hundred lines; reading keys takes time that grows as the square of their number. */
const LARGEST_CASE_FILE = 256 * 1024;
/** The guide knows some thousand things; beyond that each key would be looked for among all of them in vain. */
const MOST_KEYS = 3000;

const caseFileSchema = z.strictObject({
  conditions: z.record(z.string(), z.union([z.string(), z.number()])).default({}),
  findings: z.record(z.string(), z.union([z.string(), z.number()])).default({}),
  tried: z
    .array(
      z.strictObject({
        remedy: z.string(),
        outcome: z.enum(OUTCOMES),
        done: z.enum(['well', 'doubtful']).optional(),
        with: z.enum(TRIED_WITH).optional(),
        reach: z.enum(TRIED_REACH).optional(),
      }),
    )
    .default([]),
});
export type CaseFile = z.infer<typeof caseFileSchema>;

/** A case file read from YAML (JSON is YAML too), or what is wrong with it, one message a fault with its line. */
export function readCaseFile(
  text: string,
  file: string,
  knowledge: Knowledge,
): { ok: true; caseFile: CaseFile } | { ok: false; faults: readonly string[] } {
  if (text.length > LARGEST_CASE_FILE)
    return {
      ok: false,
      faults: [`${file}: larger than any case file, ${LARGEST_CASE_FILE / 1024} kB; is it another one?`],
    };
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true });
  if (document.errors.length > 0) {
    return {
      ok: false,
      faults: document.errors.map(
        (one) => `${file}:${lines.linePos(one.pos[0]).line}: ${one.message.split('\n')[0]}`,
      ),
    };
  }
  let raw: unknown;
  try {
    raw = document.toJS() ?? {};
  } catch (error) {
    // Aliases that multiply beyond all measure.
    return { ok: false, faults: [`${file}: ${error instanceof Error ? error.message : String(error)}`] };
  }
  const hidden = hiddenKey(raw);
  if (hidden) return { ok: false, faults: [`${file}: ${hidden}: no id of the guide`] };
  const parsed = caseFileSchema.safeParse(raw);
  const keys = parsed.success
    ? Object.keys(parsed.data.findings).length + Object.keys(parsed.data.conditions).length
    : 0;
  if (keys > MOST_KEYS)
    return { ok: false, faults: [`${file}: ${keys} findings and conditions are more than any case has`] };
  if (!parsed.success) {
    return {
      ok: false,
      faults: parsed.error.issues.map(
        (issue) => `${file}: ${issue.path.join('.') || 'file'}: ${issue.message}`,
      ),
    };
  }
  const { conditions, findings, tried } = underTodaysIds(knowledge, parsed.data);
  const lineAt = (id: string) => text.split('\n').findIndex((line) => line.includes(id)) + 1;
  const faults: string[] = [];
  const report = (id: string, fault: Message | null) => {
    if (fault) faults.push(`${file}:${lineAt(id)}: ${inEnglish(fault)}`);
  };
  for (const [id, value] of Object.entries(conditions)) report(id, faultOfCondition(knowledge, id, value));
  for (const [id, value] of Object.entries(findings)) {
    if (value === 'unknown') report(id, unknownId('observation', knowledge.observations, id));
    else report(id, faultOfFinding(knowledge, id, gradedValue(knowledge, id, value)));
  }
  for (const { remedy } of tried) report(remedy, unknownId('remedy', knowledge.remedies, remedy));
  if (faults.length > 0) return { ok: false, faults };
  const known = Object.entries(findings).filter(([, value]) => value !== 'unknown');
  return {
    ok: true,
    caseFile: {
      conditions,
      findings: Object.fromEntries(known.map(([id, value]) => [id, gradedValue(knowledge, id, value)])),
      tried,
    },
  };
}

/** A key that JavaScript keeps for itself would be dropped without a word; null where there is none. */
function hiddenKey(raw: unknown): string | null {
  if (raw === null || typeof raw !== 'object') return null;
  for (const part of [raw, ...Object.values(raw)])
    if (part !== null && typeof part === 'object' && Object.hasOwn(part, '__proto__')) return '__proto__';
  return null;
}

/** "absent" serves graded observations too. */
function gradedValue(knowledge: Knowledge, id: string, value: string | number): string | number {
  const observation = knowledge.observations.get(id);
  if (!observation || typeof value === 'number') return value;
  const levels = knowledge.levelsOf(id);
  if (levels.includes(value)) return value;
  return value === 'absent' ? (levels[0] ?? value) : value;
}
