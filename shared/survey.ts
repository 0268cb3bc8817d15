/**
 * The survey as the steps hand it on: what the sheets and the maps say, checked, in metres, degrees and minutes.
 * Angles run clockwise from north. `null` is "not recorded", never 0 and never NaN.
 */

export type Design = 'belt' | 'distance';
export type Role = 'primary' | 'secondary';

/** One row of transects.csv. `row` is the spreadsheet row, for messages. */
export interface Transect {
  transect: string;
  /** YYYY-MM-DD */
  date: string;
  design: Design;
  primary: string;
  secondary: string | null;
  startLat: number;
  startLon: number;
  endLat: number | null;
  endLon: number | null;
  bearingDeg: number | null;
  bearingRef: 'magnetic' | 'true';
  lengthM: number;
  /** default already filled in: 1 on a belt, 2 on a distance transect */
  widthM: number;
  clarityM: number | null;
  stop: 'rope_end' | 'thermocline' | 'obstacle' | null;
  setupMin: number | null;
  habitatMin: number | null;
  searchMin: number | null;
  notes: string | null;
  /** columns that we do not know, passed through */
  extra: Record<string, string>;
  row: number;
}

/** One row of habitat.csv: where a habitat begins. */
export interface HabitatRow {
  transect: string;
  distanceM: number;
  /** classes, the dominant one first; null on an end row */
  substrate: string[] | null;
  /** 0–4; null on an end row */
  plantCover: number | null;
  depthM: number;
  /** columns that we do not know, passed through */
  extra?: Record<string, string>;
  row: number;
}

/** One row of detections.csv: a cluster of mussels. */
export interface Detection {
  transect: string;
  role: Role;
  distanceM: number;
  /** perpendicular distance from the rope; null on belts */
  offsetM: number | null;
  count: number;
  clusterLengthCm: number | null;
  clusterWidthCm: number | null;
  extra: Record<string, string>;
  row: number;
}

/** One row of planted_shells.csv: shells of known number put into a transect's strip, and how many were found. */
export interface PlantedShells {
  transect: string;
  planted: number;
  foundFirst: number;
  foundSecondOnly: number;
  row: number;
}

/** The tables. Habitat rows are in order of distance within their transect. */
export interface Survey {
  transects: Transect[];
  habitat: HabitatRow[];
  detections: Detection[];
  /** left out: no such table */
  planted?: PlantedShells[];
}

export type LngLat = [number, number];
export type XY = [number, number];
/** Positions one after another, as maps have millions of them: lon0, lat0, lon1, lat1, … */
export type Positions = Float64Array;

/** Rings closed (first = last); the first ring of a polygon is its outside, the others are holes. */
export type LngLatPolygon = LngLat[][];
export type XYPolygon = XY[][];

export interface SubstratePatch {
  /** classes, the dominant one first */
  substrate: string[];
  /** null = not mapped */
  plantCover: number | null;
  /** their rings as those of LngLatPolygon */
  polygons: Positions[][];
  /** feature number in substrate.geojson, from 1 */
  feature: number;
}

export interface TreatmentArea {
  name: string;
  polygons: LngLatPolygon[];
  feature: number;
}

/** A single-band raster of depth, north-up, in its own coordinates. */
export interface DepthRaster {
  kind: 'raster';
  width: number;
  height: number;
  /** row by row from the top; NaN = no data (a raster's own convention) */
  depthM: Float32Array | Float64Array;
  /** centre of the first cell and the steps to the next column and row, in the raster's coordinates */
  originX: number;
  originY: number;
  stepX: number;
  stepY: number;
  /** PROJ string of the raster's coordinates */
  crs: string;
}

/** Contour lines, edges of contour polygons or sounding points, each vertex with its depth. */
export interface DepthLines {
  kind: 'lines';
  lines: { depthM: number; points: Positions }[];
}

/** Substrate polygons made from points by the nearest one, as substrate.geojson says it in its member `interpolated`. */
export interface InterpolatedSubstrate {
  points: number;
  /** no polygon reaches farther from a point */
  greatest_distance_m: number;
  /** of the points, left out one by one, those that the nearest other one tells right; null where none could be judged */
  leave_one_out_share: number | null;
  /** half of the map's places lie as far from their sample, or farther */
  neighbours_within_m: number | null;
  /** as above, each left out together with all others within that distance: as far from a sample as the map's places are */
  leave_neighbours_out_share: number | null;
}

export interface Lake {
  outline: LngLatPolygon[] | null;
  substrate: SubstratePatch[] | null;
  /** left out: the polygons were mapped as such */
  interpolated?: InterpolatedSubstrate;
  depth: DepthRaster | DepthLines | null;
  treatments: TreatmentArea[];
  /** places where nobody may dive; left out without a file of them */
  noDive?: LngLatPolygon[];
  /** of each of them, as its feature says; null where it does not */
  noDiveNames?: (string | null)[];
}

/** The lake's local plane: Lambert azimuthal equal-area on WGS 84. */
export interface Plane {
  lon0: number;
  lat0: number;
  /** PROJ string */
  proj: string;
  forward(p: LngLat): XY;
  inverse(p: XY): LngLat;
  /** grid north to true north, degrees clockwise: true bearing − convergence = grid bearing */
  convergenceDeg(p: LngLat): number;
}

export interface Residual {
  of: 'start' | 'end' | 'bearing';
  /** metres for start and end (length of the shift), degrees for the bearing */
  value: number;
  /** its own standard error */
  se: number;
  flagged: boolean;
}

/** A transect on the map, after adjustment. */
export interface PlacedTransect {
  transect: Transect;
  start: XY;
  end: XY;
  startLngLat: LngLat;
  endLngLat: LngLat;
  /** grid direction from start to end, degrees clockwise from the plane's north */
  gridBearingDeg: number;
  /** planimetric length of the rope */
  horizontalLengthM: number;
  /** where depth was recorded along the rope, from 0 to the rope's end; equal lengths */
  profile: { distanceM: number[]; depthM: number[]; horizontalM: number[] };
  declinationDeg: number | null;
  /** true when there was no end waypoint */
  endInferred: boolean;
  residuals: Residual[];
  startSeM: number;
  endSeM: number;
  /** covariance of (x of start, y of start, direction in radians), row by row, 9 numbers */
  covariance: number[];
}

/** A piece of rope of one habitat. */
export interface Segment {
  /** number from 1 in the order of segments.csv */
  segment: number;
  transect: string;
  /** index in Survey.transects */
  transectIndex: number;
  design: Design;
  fromM: number;
  toM: number;
  /** planimetric length, and area = length × width searched */
  horizontalM: number;
  areaM2: number;
  widthM: number;
  substrate: string[];
  plantCover: number;
  /** at the segment's midpoint */
  depthM: number;
  clarityM: number | null;
  primary: string;
  secondary: string | null;
  /** indices in Survey.detections */
  detections: number[];
  start: XY;
  end: XY;
  startLngLat: LngLat;
  endLngLat: LngLat;
  /** standard error of the midpoint's position, metres per axis */
  positionSeM: number;
}

/** A detection on the map. */
export interface PlacedDetection {
  /** index in Survey.detections */
  detection: number;
  /** index in the list of segments */
  segmentIndex: number;
  lngLat: LngLat;
  positionSeM: number;
}

/** Where the survey can speak: classes seen, depths reached, plants met. */
export interface Domain {
  classes: string[];
  /** recorded depths widened by the tolerance, and cut at max_depth_m */
  depthFromM: number;
  depthToM: number;
  /** least and greatest surveyed plant cover; null when the model does not use plants */
  plantCover: { from: number; to: number } | null;
}

export interface GridFrame {
  /** left edge, TOP edge, in the plane; multiples of cellM */
  x0: number;
  y0: number;
  cellM: number;
  nx: number;
  ny: number;
}

export interface MapHabitat {
  substrate: string[];
  /** null = not mapped */
  plantCover: number | null;
  /** along the shore, as a share of its length; left out where that is not asked */
  shore?: number;
}

/** Why a piece of bed is outside of the surveyed domain; 0 = inside. The first that applies; but far is asked last, of what is left. */
export const REASONS = [
  'inside',
  'substrate',
  'plant cover',
  'depth',
  'depth unmapped',
  'far from any transect',
  'no dive',
] as const;
export type Reason = (typeof REASONS)[number];

/** The mapped bed within the outline, cut into pieces; arrays of equal length, one entry a piece. */
export interface BedPieces {
  count: number;
  /** cell number: row from the top × nx + column */
  cell: Int32Array;
  /** index in Bed.habitats */
  habitat: Uint16Array;
  areaM2: Float64Array;
  /** at the piece's centroid, ≥ 0; 0 where depth is unmapped */
  depthM: Float64Array;
  /** index in REASONS */
  reason: Uint8Array;
  /** the 1 m band: floor of depth */
  band: Uint16Array;
}

export interface Bed {
  frame: GridFrame;
  habitats: MapHabitat[];
  pieces: BedPieces;
  /** area of the outline */
  outlineM2: number;
  /** outline − mapped by substrate polygons */
  unmappedM2: number;
  /** depth at each cell's centre for the grid file, NaN off the outline or the depth map (a raster's own convention) */
  cellDepthM: Float32Array;
}

/** A place of the plane by the nearest point of the shore. */
export interface ShorePlace {
  /** number of the ring, from 0: an outer ring or an island */
  ring: number;
  /** distance along the ring from its first position, m */
  alongM: number;
  /** to that point, m */
  distanceM: number;
}

/** One ring of the shore and the transects that begin nearest to it. */
export interface ShoreRing {
  lengthM: number;
  /** names in the order along it, with their positions from 0 to the ring's length, m */
  transects: { transect: string; alongM: number }[];
  /** from one transect to the next along the ring at most; its length with one transect, or none */
  greatestGapM: number;
}

/** How transects lie along the shore. */
export interface Shore {
  /** of the outline: outer rings and islands */
  rings: ShoreRing[];
  /**
   * Of each transect, by its name: how far along the ring that most of them begin nearest to, as a share of its length. Those
   * of other rings are projected to it too.
   */
  shares: ReadonlyMap<string, number>;
  /** the same of any place of the plane */
  shareAt(place: XY): number;
  /** by cell of a grid: the same of its middle, by the number of the place among so many even ones */
  cellPlaces(frame: GridFrame, places: number): Uint8Array;
  /** usual distance of neighbouring transects, m; null where no two are neighbours */
  spacingM: number | null;
  /** by cell of a grid: 1 where it lies farther from every transect than that, else 0; null without a usual distance */
  farCells(frame: GridFrame): Uint8Array | null;
}

/** The bed of one candidate treatment area; null when it could not be laid out. */
export interface TreatedBed {
  name: string;
  bed: Bed | null;
}
