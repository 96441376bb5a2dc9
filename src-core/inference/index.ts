/** Exact reasoning over causes, mechanisms and observations: posteriors, forecasts, counterfactuals, explanations. */
export {
  propagate,
  causeProbability,
  type CalibratedNetwork,
  type InferenceOptions,
} from './queries/calibrated-network.ts';
export { propagateWhatFits, type FittingNetwork } from './queries/fitting-evidence.ts';
export { PosteriorCache } from './queries/posterior-cache.ts';
export {
  OUTCOME_LIKELIHOOD,
  type CaseHistory,
  type Removal,
  type RemedyOutcome,
  type TriedRemedy,
} from './network/case-history.ts';
export { repairProbability, chancesToCure, type CureChance } from './queries/repair-probability.ts';
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
export {
  sensitivityThresholds,
  type ModelWeight,
  type SensitivityThreshold,
  type SensitivityThresholds,
} from './explain/sensitivity-thresholds.ts';
export {
  topExplanations,
  type Explanation,
  type ExplanationOptions,
  type TopExplanations,
} from './explain/top-explanations.ts';
