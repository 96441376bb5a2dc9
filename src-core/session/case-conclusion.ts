import { z } from 'zod';
import type { Ranking } from './case-step.ts';

/** Candidates that a conclusion holds. */
const CONCLUDED_CANDIDATES = 6;

/**
 * What a case came to with its newest entry: the first candidates, what was to be done next, and the remedy that would have
 * been offered first. In the ids of the guide of that day. It outlives the step, whose form changes with the engine.
 */
export const caseConclusionSchema = z.object({
  candidates: z.array(z.tuple([z.string(), z.number()])),
  next: z.object({ kind: z.string(), id: z.string() }).nullable(),
  remedy: z.string().nullable(),
});
export type CaseConclusion = z.infer<typeof caseConclusionSchema>;

/** As much of a case's step as a conclusion needs. */
const stepSchema = z.object({
  ranking: z.array(z.tuple([z.string(), z.number()])),
  reasoning: z.object({
    next: z.object({ kind: z.string(), id: z.string() }).optional(),
    remedies: z.array(z.object({ remedy: z.string() })),
  }),
});

/** Takes the conclusion from a step, of this engine or an earlier one; null where it has no such form. */
export function conclusionOf(step: unknown): CaseConclusion | null {
  const read = stepSchema.safeParse(step);
  return read.success ? concludedBy(read.data) : null;
}

/** The same of a step that is known to have it. */
export function concludedBy({ ranking, reasoning }: Concluding): CaseConclusion {
  const { next, remedies } = reasoning;
  return {
    candidates: ranking.slice(0, CONCLUDED_CANDIDATES).map(([cause, probability]) => [cause, probability]),
    next: next ? { kind: next.kind, id: next.id } : null,
    remedy: remedies[0]?.remedy ?? null,
  };
}

interface Concluding {
  readonly ranking: Ranking;
  readonly reasoning: {
    readonly next?: { readonly kind: string; readonly id: string } | undefined;
    readonly remedies: readonly { readonly remedy: string }[];
  };
}
