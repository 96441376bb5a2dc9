import { z } from 'zod';
import type { CaseStep } from './case-step.ts';

/** Candidates that a conclusion holds. */
export const CONCLUDED_CANDIDATES = 6;

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

/** Takes the conclusion from a step, of this engine or an earlier one; null where it has no such form. */
export function conclusionOf(step: unknown): CaseConclusion | null {
  const read = stepSchema.safeParse(step);
  if (!read.success) return null;
  const { ranking, reasoning } = read.data;
  return {
    candidates: ranking.slice(0, CONCLUDED_CANDIDATES),
    next: reasoning.next ?? null,
    remedy: reasoning.remedies[0]?.remedy ?? null,
  };
}

/** As much of a {@link CaseStep} as a conclusion needs. */
const stepSchema = z.object({
  ranking: z.array(z.tuple([z.string(), z.number()])),
  reasoning: z.object({
    next: z.object({ kind: z.string(), id: z.string() }).optional(),
    remedies: z.array(z.object({ remedy: z.string() })),
  }),
});

/** The same of a step of this engine. */
export function concludedBy({ ranking, reasoning }: CaseStep): CaseConclusion {
  return {
    candidates: ranking.slice(0, CONCLUDED_CANDIDATES).map(([cause, probability]) => [cause, probability]),
    next: { kind: reasoning.next.kind, id: reasoning.next.id },
    remedy: reasoning.remedies[0]?.remedy ?? null,
  };
}
