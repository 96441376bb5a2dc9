import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import { levelsFromCauseAlone } from '../../src-core/differential/levels-from-cause.ts';
import { complaintModel } from '../../src-core/inference/index.ts';
import { CAUSE_NOT_IN_GUIDE } from '../../src-core/knowledge/compile.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { Expectation } from './expectations.ts';

const percents = z.record(z.string(), z.number().min(0).max(100));
const fileSchema = z.strictObject({
  judgement: z.string(),
  rows: z.array(z.strictObject({ cause: z.string(), complaints: percents, signs: percents })),
});

/** What a reader expects the other way round: with only this cause at work, how often (0-1) each complaint or sign comes. */
export interface ForwardRow {
  readonly cause: string;
  readonly complaints: ReadonlyMap<string, number>;
  readonly signs: ReadonlyMap<string, number>;
}

/** Where the network falls short of what the reader expects of a cause. */
export interface ForwardGap {
  readonly observation: string;
  readonly cause: string;
  readonly isComplaint: boolean;
  /** What the reader said, in the scale of the observation's table. */
  readonly expected: number;
  readonly network: number;
  /** Between the two; see {@link between}. */
  readonly proposed: number;
  /** Of the cause, before anything is known (0-1). */
  readonly prior: number;
}

/** A complaint that a tenth of the shops would name, or a sign that three tenths of those who look would find. */
const LEAST = { complaint: 0.1, sign: 0.3 };
/** Less than this share of what is expected is a gap. */
const FAR_SHORT = 1 / 3;
/** A cause that no reader named for a complaint had at most this share of it in their minds: their smallest entry is twice that. */
const UNNAMED_SHARE = 0.0025;
const LARGEST = 0.96;
/** Both say that it is there: what a scale is read from. */
const PLAIN = 0.05;

export function readForward(file: string, today: (id: string) => string): ForwardRow[] {
  const { rows } = fileSchema.parse(parse(readFileSync(file, 'utf8')));
  const shares = (given: Readonly<Record<string, number>>) =>
    new Map(Object.entries(given).map(([id, percent]) => [id, percent / 100]));
  return rows.map(({ cause, complaints, signs }) => ({
    cause: today(cause),
    complaints: shares(complaints),
    signs: shares(signs),
  }));
}

/** The reader's rows stand here; the other readers' in the files beside it. */
export const FORWARD_FILE = path.join(
  import.meta.dirname,
  ...['..', '..', 'expectations', 'readers', 'reader-4-forward.yaml'],
);

/**
 * Pairs of cause and observation that the reader expects and the network hardly knows.
 *
 * A table of a complaint is free in its scale (see fit.ts), so the reader's figures are first brought to it: by the median
 * ratio over the causes that both name.
 */
export function forwardGaps(
  knowledge: Knowledge,
  rows: readonly ForwardRow[],
  expectations: readonly Expectation[],
  least = LEAST,
): ForwardGap[] {
  const { graph, causeIndex, observationIndex } = knowledge;
  const unknown = causeIndex.get(CAUSE_NOT_IN_GUIDE) ?? -1;
  const named = new Map(
    expectations
      .filter(({ conditions }) => Object.keys(conditions).length === 0)
      .map(({ id, shares }) => [id, shares]),
  );
  const complaints = new Map<string, { cause: string; given: number }[]>();
  for (const { cause, complaints: given } of rows)
    for (const [id, share] of given)
      complaints.set(id, [...(complaints.get(id) ?? []), { cause, given: share }]);

  const ofComplaints = [...complaints].flatMap(([id, given]): ForwardGap[] => {
    const index = observationIndex.get(id) ?? -1;
    const { atWork } = complaintModel(graph, [index], unknown);
    const reachOf = (cause: string) => atWork[causeIndex.get(cause) ?? -1] ?? 0;
    const ratios = given
      .filter((one) => one.given >= PLAIN && reachOf(one.cause) >= PLAIN)
      .map((one) => reachOf(one.cause) / one.given)
      .sort((a, b) => a - b);
    const scale = ratios[ratios.length >> 1] ?? 1;
    const raised = graph.causes.reduce((sum, { prior }, at) => sum + prior * (atWork[at] ?? 0), 0);
    return given.flatMap(({ cause, given: share }): ForwardGap[] => {
      const expected = Math.min(LARGEST, scale * share);
      const network = reachOf(cause);
      if (share < least.complaint || network >= expected * FAR_SHORT) return [];
      const prior = graph.causes[causeIndex.get(cause) ?? -1]?.prior ?? 1;
      const most = named.get(id)?.has(cause) === true ? network : (UNNAMED_SHARE * raised) / prior;
      const proposed = Math.max(network, between(expected, most));
      return [{ observation: id, cause, isComplaint: true, expected, network, proposed, prior }];
    });
  });
  const ofSigns = rows.flatMap(({ cause, signs }) => {
    const levelsOf = levelsFromCauseAlone(graph, causeIndex.get(cause) ?? null);
    return [...signs].flatMap(([id, expected]): ForwardGap[] => {
      const network = 1 - (levelsOf(observationIndex.get(id) ?? -1)[0] ?? 1);
      if (expected < least.sign || network >= expected * FAR_SHORT) return [];
      const proposed = between(expected, Math.max(network, PLAIN));
      const prior = graph.causes[causeIndex.get(cause) ?? -1]?.prior ?? 0;
      return [{ observation: id, cause, isComplaint: false, expected, network, proposed, prior }];
    });
  });
  return [...ofComplaints, ...ofSigns];
}

/**
 * Two judgements, neither better than the other: their middle on a scale of ratios. What others leave open (`most` is no
 * lower than what is expected) contradicts nothing, so the reader's figure stands.
 */
function between(expected: number, most: number): number {
  return most >= expected ? expected : Math.sqrt(expected * Math.max(most, 0.001));
}
