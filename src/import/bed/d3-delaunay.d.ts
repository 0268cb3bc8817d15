/** d3-delaunay comes without types; what is used of it. */
declare module 'd3-delaunay' {
  export interface Voronoi {
    /** closed ring of the cell of a point; null for a point that coincides with another */
    cellPolygon(i: number): [number, number][] | null;
  }
  export class Delaunay {
    static from(points: ArrayLike<readonly [number, number]>): Delaunay;
    voronoi(bounds: readonly [number, number, number, number]): Voronoi;
  }
}
