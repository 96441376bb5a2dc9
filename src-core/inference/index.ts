/** Exact reasoning over causes, mechanisms and observations: posteriors, forecasts, counterfactuals, explanations. */
export { believe, causeProbability, type Belief, type InferenceOptions } from './belief.ts';
export { CaseMemory } from './case-memory.ts';
export {
  OUTCOME_LIKELIHOOD,
  type CaseHistory,
  type Removal,
  type RemedyOutcome,
  type TriedRemedy,
} from './case-history.ts';
export { chanceToCure, chancesToCure, type CureChance } from './chance-to-cure.ts';
export { complaintModel, modelWithoutComplaint, type ComplaintModel } from './complaint-model.ts';
export { DEFAULT_LIMITS, type WidthLimits } from './compile-circuit.ts';
export { conflict, type Conflict } from './conflict.ts';
export { afterWeight, decibansOf, weightOfEvidence } from './decibans.ts';
export { explainWeights, SHAPLEY_FINDINGS, type WeightExplanation } from './explain-weights.ts';
export {
  queryGeneral,
  type GeneralNetwork,
  type GeneralPosterior,
  type GeneralVariable,
} from './general/query-general.ts';
export type {
  GraphCause,
  GraphEvidence,
  GraphLink,
  GraphMechanism,
  GraphModel,
  GraphObservation,
} from './graph-model.ts';
export { expandGates } from './interchange/expand-gates.ts';
export type { NamedNetwork } from './interchange/named-network.ts';
export { readXmlbif, type XmlbifReading } from './interchange/read-xmlbif.ts';
export { writeXmlbif } from './interchange/write-xmlbif.ts';
export { infer, posteriorOf } from './infer.ts';
export type { BoundedPosterior, ExactPosterior, ImpossibleEvidence, Posterior } from './posterior.ts';
export { predict, type Prediction } from './predict.ts';
export { tippingPoints, type ModelWeight, type TippingPoint, type TippingPoints } from './tipping-points.ts';
export {
  topExplanations,
  type Explanation,
  type ExplanationOptions,
  type TopExplanations,
} from './top-explanations.ts';
