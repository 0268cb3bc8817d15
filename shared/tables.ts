/**
 * The one definition of every column of the survey's tables, three that each has and one that some have: the parser, the checks,
 * the Table Schema, entry forms, printed sheets and the manual are derived from it.
 */

import { DETECTIONS } from './tables/detections.ts';
import { HABITAT } from './tables/habitat.ts';
import type { Table } from './tables/kinds.ts';
import { PLANTED_SHELLS } from './tables/planted-shells.ts';
import { TRANSECTS } from './tables/transects.ts';

export { DETECTIONS } from './tables/detections.ts';
export { HABITAT } from './tables/habitat.ts';
export { HISTORY } from './tables/history.ts';
export {
  type Column,
  type ColumnType,
  DEEPEST_LAKE_M,
  DEFAULT_WIDTH_M,
  LONGEST_LABEL,
  MAX_COUNT,
  MAX_ROPE_M,
  type Table,
  type TableName,
} from './tables/kinds.ts';
export { PLANTED_SHELLS } from './tables/planted-shells.ts';
export { TRANSECTS } from './tables/transects.ts';

/** Tables that every survey has. */
export const TABLES: readonly Table[] = [TRANSECTS, HABITAT, DETECTIONS];
/** Those that some have besides. */
export const OPTIONAL_TABLES: readonly Table[] = [PLANTED_SHELLS];
export const ALL_TABLES: readonly Table[] = [...TABLES, ...OPTIONAL_TABLES];
