/** A choice of units, and what it may take. */

export interface Chosen {
  /** 1 for those chosen */
  inSet: Uint8Array;
  value: number;
  cost: number;
}

export interface Purse {
  budget: number;
  /** separate areas, at most */
  parts: number;
}
