/** The choices of an analysis (analysis.json), each with its default, limits and meaning. */

export interface Analysis {
  lake: string;
  density: {
    substrate: boolean;
    plant_cover: 'none' | 'presence' | 'score' | 'classes';
    depth: 'none' | 'linear' | 'quadratic' | 'curve';
    depth_df: number;
    family: 'poisson' | 'nb1' | 'nb2' | 'auto';
    transect_effect: boolean | 'auto';
  };
  detection: {
    observer: boolean;
    plant_cover: boolean;
    substrate: boolean;
    depth: boolean;
    clarity: boolean;
    cluster_size: boolean;
    shape: 'half-normal' | 'hazard-rate' | 'auto';
    independence: 'full' | 'point';
  };
  cluster_size: { substrate: boolean };
  segments: { max_length_m: number | null };
  position: { gps_sd_m: number; compass_sd_deg: number };
  map: {
    cell_m: number;
    max_depth_m: number | null;
    outside: 'exclude';
    depth_tolerance_m: number;
    threshold_per_m2: number | null;
  };
  bootstrap: { replicates: number };
  substrates: string[];
  interval: number;
  seed: number;
}

/** `lake` is filled with the folder's name by the reader. */
export const DEFAULT_ANALYSIS: Analysis = {
  lake: '',
  density: {
    substrate: true,
    plant_cover: 'score',
    depth: 'curve',
    depth_df: 3,
    family: 'auto',
    transect_effect: 'auto',
  },
  detection: {
    observer: true,
    plant_cover: false,
    substrate: false,
    depth: false,
    clarity: false,
    cluster_size: false,
    shape: 'auto',
    independence: 'point',
  },
  cluster_size: { substrate: false },
  segments: { max_length_m: 5 },
  position: { gps_sd_m: 4, compass_sd_deg: 4 },
  map: {
    cell_m: 5,
    max_depth_m: null,
    outside: 'exclude',
    depth_tolerance_m: 0.5,
    threshold_per_m2: null,
  },
  bootstrap: { replicates: 0 },
  substrates: ['mud', 'silt', 'sand', 'gravel', 'pebble', 'rock', 'other'],
  interval: 0.95,
  seed: 1,
};
