/** Exact reasoning over causes, mechanisms and observations: posteriors, forecasts, counterfactuals, explanations. */
export { believe, causeProbability, type Belief, type InferenceOptions } from './queries/belief.ts';
export { CaseMemory } from './queries/case-memory.ts';
export {
  OUTCOME_LIKELIHOOD,
  type CaseHistory,
  type Removal,
  type RemedyOutcome,
  type TriedRemedy,
} from './network/case-history.ts';
export { chanceToCure, chancesToCure, type CureChance } from './queries/chance-to-cure.ts';
export { complaintModel, modelWithoutComplaint, type ComplaintModel } from './network/complaint-model.ts';
export { DEFAULT_LIMITS, type WidthLimits } from './circuit/compile-circuit.ts';
export { conflict, type Conflict } from './explain/conflict.ts';
export { afterWeight, decibansOf, weightOfEvidence } from './explain/decibans.ts';
export { explainWeights, SHAPLEY_FINDINGS, type WeightExplanation } from './explain/explain-weights.ts';
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
} from './network/graph-model.ts';
export { expandGates } from './interchange/expand-gates.ts';
export type { NamedNetwork } from './interchange/named-network.ts';
export { readXmlbif, type XmlbifReading } from './interchange/read-xmlbif.ts';
export { writeXmlbif } from './interchange/write-xmlbif.ts';
export { infer, posteriorOf } from './queries/infer.ts';
export type { BoundedPosterior, ExactPosterior, ImpossibleEvidence, Posterior } from './queries/posterior.ts';
export { predict, type Prediction } from './queries/predict.ts';
export { tippingPoints, type ModelWeight, type TippingPoint, type TippingPoints } from './explain/tipping-points.ts';
export {
  topExplanations,
  type Explanation,
  type ExplanationOptions,
  type TopExplanations,
} from './explain/top-explanations.ts';
