import { readFileSync } from 'node:fs';
import path from 'node:path';
import { z } from 'zod';
import { today } from '../../src-core/knowledge/former-ids.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { rankCauses } from '../../src-core/session/reason-about.ts';
import { contextOfCase } from '../../src-main/command/diagnose.ts';
import { caseFileOf } from '../open-cases/open-cases.ts';
import { SOMETHING_ELSE } from './expectations.ts';

const valuesSchema = z.record(z.string(), z.union([z.string(), z.number()]));
const readingSchema = z.strictObject({
  conditions: valuesSchema.default({}),
  findings: valuesSchema,
  tried: z.array(z.unknown()).default([]),
  /** The cause that the report was written for. */
  written: z.string().optional(),
  /** Of 100 such reports, how many come from which cause. */
  read: z.record(z.string(), z.number().min(0).max(101)),
});
export type Reading = z.infer<typeof readingSchema>;

/** In the order in which they are counted for what is held out. */
const FILES = ['by-complaint', 'by-cause', 'by-observation', 'hard', 'ticks-by-the-guide'] as const;
/** The guide was not fitted to every eighth. */
const HELD_OUT = 8;

const folder = path.join(import.meta.dirname, '..', '..', 'expectations', 'readings');

/** All readings of `expectations/readings`. Throws with file and line for one that is not as it should be. */
export function readReadings(): Reading[] {
  return FILES.flatMap((name) => {
    const file = path.join(folder, `${name}.jsonl`);
    return readFileSync(file, 'utf8')
      .trimEnd()
      .split('\n')
      .map((line, index) => {
        const read = readingSchema.safeParse(JSON.parse(line));
        if (!read.success) throw new Error(`${file}:${index + 1}: ${z.prettifyError(read.error)}`);
        return read.data;
      });
  });
}

/** Readings that the guide was not fitted to. */
export function heldOut(readings: readonly Reading[]): Reading[] {
  return readings.filter((_, index) => index % HELD_OUT === 0);
}

/** Ids in a reading that this guide neither knows nor knew. */
export function unknownIn(knowledge: Knowledge, { written, read }: Reading): string[] {
  const causes = [...Object.keys(read).filter((id) => id !== SOMETHING_ELSE), ...(written ? [written] : [])];
  return causes.filter((id) => !knowledge.causes.has(today(knowledge.former.causes, id)));
}

export interface Agreement {
  readonly readings: number;
  /** Share of readings in which the reader's first cause is the network's first, and among its first three. */
  readonly first: number;
  readonly firstThree: number;
}

/** How often the network puts the reader's first cause first, and among the first three. */
export function agreement(knowledge: Knowledge, readings: readonly Reading[]): Agreement {
  const places = readings.map((reading, index) => {
    const caseFile = caseFileOf(knowledge, `reading ${index}`, reading);
    const [first] = Object.entries(reading.read)
      .filter(([id]) => id !== SOMETHING_ELSE)
      .toSorted(([, a], [, b]) => b - a);
    const cause = today(knowledge.former.causes, first?.[0] ?? '');
    return rankCauses(knowledge, contextOfCase(knowledge, caseFile)).findIndex((one) => one.cause === cause);
  });
  const share = (isSo: (place: number) => boolean) => places.filter(isSo).length / readings.length;
  return {
    readings: readings.length,
    first: share((place) => place === 0),
    firstThree: share((place) => place >= 0 && place < 3),
  };
}
