import type { InferenceOptions } from './belief.ts';
import type { GraphEvidence, GraphModel } from './graph-model.ts';
import type { BoundedPosterior, ImpossibleEvidence } from './infer.ts';
export function boundPosterior(
  _model: GraphModel,
  _priors: readonly number[],
  _evidence: readonly GraphEvidence[],
  _options: InferenceOptions,
): BoundedPosterior | ImpossibleEvidence {
  throw new Error('todo');
}
