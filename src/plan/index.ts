/** Next dives: how precise so many transects would be, where they lie best, and the plan itself (METHOD.md: Next dives). */

export { precisionAhead } from './ahead.ts';
export { planAlternatives } from './alternatives.ts';
export { checkPlan } from './check.ts';
export type { PlannedPlace } from './draw.ts';
export { fewMore } from './few-more.ts';
export { type PlanFrame, type PlanGround, planFrame } from './frame.ts';
export { makePlan, planRequest } from './make.ts';
export { readStated } from './stated.ts';
export { usualSections } from './usual.ts';
