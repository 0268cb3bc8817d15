/** What models/ offer to src/ once there is an estimate: surveys held against each other, and dives that are planned. The page loads it when it is asked for. */

// two surveys of one lake, and the lakes of a programme
export {
  lessTotals,
  type NotTwoDensities,
  outsideAlone,
  sumOfTotals,
  withTreatedArea,
} from './compare/baci.ts';
export { type CellChange, cellChange } from './compare/cells.ts';
export { type Change, changeOf, jointDegrees } from './compare/change.ts';
export { type EmptySearch, ratioLimit, STRANGER } from './compare/limit.ts';
export {
  type EmptySegment,
  type PartLimit,
  type PartOptions,
  partLimit,
} from './compare/part-limit.ts';
export {
  MOST_PARAMETERS,
  type ProgrammeLake,
  type SharedProgramme,
  sharedProgramme,
} from './compare/programme.ts';
export {
  pairModels,
  type Season,
  type SeasonPairs,
  type SharedDetection,
  seasonTotals,
} from './compare/seasons.ts';
// transects that are still to be dived
export {
  type Allocation,
  type AllocationInput,
  allocations,
  evenAllocations,
  LEAST_A_ZONE,
} from './design/allocate.ts';
export {
  type CurvePoint,
  cvOf,
  expectedCv,
  precisionCurve,
  systematic,
} from './design/curve.ts';
export {
  type PlannedSegment,
  type Roles,
  type TransectInformation,
  transectInformation,
} from './design/information.ts';
export {
  type EstimateInHand,
  type PlanningModel,
  planningModel,
} from './design/planning-model.ts';
export { sumInformation, varianceOf } from './design/precision.ts';
export { type StatedValues, statedForm, statedModel } from './design/stated.ts';
