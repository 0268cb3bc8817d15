/**
 * What models/ offer to src/, in the order in which an estimate asks for it; what comes after an estimate is in further.ts. Everything
 * else is their own business.
 */

// density at a place, totals over a bed, the surface of its cells
export { binned, condense, type HabitatSum, type Pieces, type Total } from './abundance.ts';
export { type Availability, withAvailability } from './availability.ts';
export {
  type AverageSums,
  averageDensityAt,
  averageSums,
  averageSurface,
  averageTotal,
  bedTotal,
  type CarriedModel,
  carry,
  hasTransectEffect,
} from './averaged.ts';
// bootstrap and simulation study, and how either is handed to threads
export { bootstrapTask, summariseBootstrap } from './bootstrap.ts';
// pairs of detections in one place, and how many chance brings
export {
  beyondChance,
  mixedPairs,
  type PairTally,
  type PairTest,
  type Place,
  SAME_PLACE_M,
  tallyPairs,
} from './close-pairs.ts';
// a survey as numbers
export type { SurveyRows } from './data.ts';
// where transects lie along the shore
export { greatestGap, isSpread, SHORE_PLACES } from './density/shore.ts';
// detection along its covariates
export { detectionAgainst } from './detection-against.ts';
// checks on the model
export type { Compared, ComparedTables, DistanceClass } from './diagnose/expected.ts';
export { type Diagnosis, diagnose } from './diagnose/index.ts';
export type { AlongRing } from './diagnose/successive.ts';
// fitting: a model chosen by AICc, or the fit of a survey without detections
export { DensityNotIdentified, NotEstimable } from './errors.ts';
// where density exceeds a threshold
export {
  type AreaAbove,
  areaAbove,
  chanceAbove,
  type JointDensity,
  jointDensity,
  type WeightedJoint,
} from './exceedance.ts';
// what a fit expects of the detections, by distance and by size
export { expectedDetections } from './expected-curves.ts';
export { type Choice, chooseModel, haveSameNames, type Member, namesOf } from './fit/choice.ts';
export { EFFECT_MARGIN, LEAST_WEIGHT, TIE, type Weighed, weighModels } from './fit/compare.ts';
export type { Fit } from './fit/fitted-model.ts';
// models held against each other
export { LEAST_MEAN_P } from './fit/multistart.ts';
export { nothingDetected } from './fit/nothing-detected.ts';
export { withModelsOutside } from './fit/outside-choice.ts';
// limits where an estimate lies on its boundary
export { type ClassLimit, classLimits, limitOf, overallLimit } from './fit/profile-limits.ts';
export { heterogeneity } from './heterogeneity.ts';
// from an estimate and its standard error to an interval
export { intervalQuantile, logNormalQuantity, percentileInterval } from './interval.ts';
export { stream } from './numbers/random.ts';
export { logistic, normalQuantile } from './numbers/special.ts';
export { availabilityOf, type PlantedAvailability, plantedAvailability } from './planted.ts';
export {
  type HabitatDensity,
  type MappedHabitat,
  type Predictor,
  predictor,
} from './predict.ts';
// the total by the substrates that observers recorded
export { reclassifiedTotal, recordedShares, type Stretch } from './reclassified.ts';
export {
  fittedLogDensity,
  type RehearsalInput,
  type RehearsalSummary,
  type RehearsedQuantity,
  summariseRehearsal,
  truthOf,
} from './rehearse.ts';
// what is reported of detection and cluster size, the effects of transects, the design-based estimate
export {
  designBased,
  diverReports,
  meanClusterSize,
  meanDetection,
  pairReports,
  transectEffects,
} from './report.ts';
export { type Outcome, performer, type RunMany, runHere, type Task } from './tasks.ts';
// several areas of one bed: joint covariance, shares, order, and densities drawn for a bootstrap of their choice
export { drawnDensity, expectedDensity, jointOfBins } from './treat/draws.ts';
export {
  type AreaTotals,
  areaTotals,
  chanceOfMore,
  jointTotals,
  type ShareEstimate,
  shareOfWhole,
} from './treat/joint.ts';
export type { Truth } from './truth.ts';
