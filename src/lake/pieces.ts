/** The pieces of the bed while they are being collected: columns that grow, no object a piece. */

import type { BedPieces } from '../../shared/survey.ts';

export class PieceList {
  private count = 0;
  private cell: Int32Array;
  private habitat: Uint16Array;
  private areaM2: Float64Array;
  private depthM: Float64Array;
  private reason: Uint8Array;
  private band: Uint16Array;

  constructor(room: number) {
    this.cell = new Int32Array(room);
    this.habitat = new Uint16Array(room);
    this.areaM2 = new Float64Array(room);
    this.depthM = new Float64Array(room);
    this.reason = new Uint8Array(room);
    this.band = new Uint16Array(room);
  }

  get length(): number {
    return this.count;
  }

  push(
    cell: number,
    habitat: number,
    areaM2: number,
    depthM: number,
    reason: number,
    band: number,
  ): void {
    const i = this.count;
    if (i === this.cell.length) this.grow();
    this.cell[i] = cell;
    this.habitat[i] = habitat;
    this.areaM2[i] = areaM2;
    this.depthM[i] = depthM;
    this.reason[i] = reason;
    this.band[i] = band;
    this.count++;
  }

  done(): BedPieces {
    const n = this.count;
    return {
      count: n,
      cell: this.cell.slice(0, n),
      habitat: this.habitat.slice(0, n),
      areaM2: this.areaM2.slice(0, n),
      depthM: this.depthM.slice(0, n),
      reason: this.reason.slice(0, n),
      band: this.band.slice(0, n),
    };
  }

  private grow(): void {
    const room = Math.ceil(this.cell.length * 1.5) + 1024;
    this.cell = moved(this.cell, new Int32Array(room));
    this.habitat = moved(this.habitat, new Uint16Array(room));
    this.areaM2 = moved(this.areaM2, new Float64Array(room));
    this.depthM = moved(this.depthM, new Float64Array(room));
    this.reason = moved(this.reason, new Uint8Array(room));
    this.band = moved(this.band, new Uint16Array(room));
  }
}

function moved<T extends { set(source: T): void }>(from: T, to: T): T {
  to.set(from);
  return to;
}
