/**
 * One term for one thing. Labels, headings, column names, choices, checks, report, terminal and manual take their words
 * from here; no screen spells a term by itself (tests/house/labels.test.ts holds that). A term is what the published
 * methods literature calls the thing; its gloss says it plainly, for the first time that a reader meets it.
 */

export interface Entry {
  /** lower case, singular, as inside of a sentence; names and abbreviations keep their capitals */
  term: string;
  /** when it is not the term with an s */
  plural?: string;
  /** where a column is narrow */
  short?: string;
  /** one plain phrase, lower case, without a full stop; null where the term is plain by itself */
  gloss: string | null;
  /** unit as it stands in a column heading */
  unit?: string;
}

const entries = {
  // what is surveyed
  survey: { term: 'survey', gloss: null },
  transect: { term: 'transect', gloss: 'a line laid on the lake bed and searched' },
  plannedTransect: {
    term: 'planned transect',
    gloss: 'a line that is still to be laid and searched',
  },
  segment: {
    term: 'segment',
    gloss: 'a stretch of a transect with one substrate, plant cover and depth',
  },
  rope: { term: 'rope', gloss: 'the leaded rope itself: its length, its ends' },
  design: { term: 'design', gloss: 'how a transect is searched' },
  belt: { term: 'belt', gloss: 'a strip between two ropes, searched whole' },
  distance: {
    term: 'distance',
    gloss: 'one rope, and the perpendicular distance of each detection from it',
  },
  beltTransect: {
    term: 'belt transect',
    gloss: 'a transect searched as a strip between two ropes',
  },
  distanceTransect: {
    term: 'distance transect',
    gloss: 'a transect searched to both sides of one rope',
  },
  substrate: { term: 'substrate', plural: 'substrates', gloss: 'what the bed is made of' },
  plantCover: { term: 'plant cover', plural: 'plant cover', gloss: '0 none to 4 dense' },
  depth: { term: 'depth', gloss: null, unit: 'm' },
  placeAlongShore: { term: 'place along the shore', gloss: null },
  alongShore: {
    term: 'smooth along the shore',
    short: 'shore',
    gloss: 'one or two waves of density round the shore',
  },
  depthBand: { term: 'depth band', gloss: 'one metre of depth' },
  visibility: { term: 'visibility', plural: 'visibility', gloss: 'how far one sees in the water' },
  searchedArea: { term: 'searched area', gloss: 'the area inside the strips' },
  surveyedHabitat: {
    term: 'surveyed habitat',
    plural: 'surveyed habitat',
    gloss:
      'the part of the lake that the estimate is about: mapped bed of the substrates and depths that were sampled',
  },
  outsideHabitat: {
    term: 'outside the surveyed habitat',
    plural: 'outside the surveyed habitat',
    gloss: 'mapped bed that the estimate is not about, by reason',
  },
  stratum: { term: 'stratum', plural: 'strata', gloss: 'one substrate within one depth band' },
  commonGround: {
    term: 'common ground',
    plural: 'common ground',
    gloss: 'mapped bed that lies in the surveyed habitat of both surveys',
  },
  changeRatio: {
    term: 'change in abundance',
    plural: 'changes in abundance',
    short: 'change',
    gloss: 'mussels of the later survey over those of the earlier one',
  },
  treatmentArea: { term: 'treatment area', gloss: 'an area that might be treated' },
  proposedArea: { term: 'proposed area', gloss: 'an area chosen for a budget by the estimate' },
  keepOut: {
    term: 'place to keep out of',
    plural: 'places to keep out of',
    gloss: 'an intake, a beach, a bed of native mussels: no area is proposed there',
  },

  // who searches and what they record
  observer: { term: 'observer', gloss: 'a diver who searches' },
  primaryObserver: {
    term: 'primary observer',
    gloss: 'searches first and marks what was detected',
  },
  secondaryObserver: {
    term: 'secondary observer',
    gloss: 'searches behind the primary observer for what was missed',
  },
  detection: { term: 'detection', gloss: 'one cluster that an observer recorded' },
  detectedCluster: { term: 'detected cluster', gloss: null },
  cluster: { term: 'cluster', gloss: 'mussels that sit together, counted as one detection' },
  mussel: { term: 'mussel', gloss: null },
  singleMussel: { term: 'single mussel', gloss: 'a cluster of one' },
  clusterSize: { term: 'cluster size', gloss: 'mussels in one cluster' },
  perpendicularDistance: {
    term: 'perpendicular distance',
    gloss: 'how far from the line',
    unit: 'm',
  },

  // detection
  detectionProbability: {
    term: 'detection probability',
    plural: 'detection probabilities',
    gloss: 'share of the clusters present that was detected',
  },
  detectionFunction: {
    term: 'detection function',
    gloss: 'how detection falls with perpendicular distance',
  },
  halfNormal: { term: 'half-normal', gloss: 'a shoulder that falls off at once, like a bell' },
  hazardRate: { term: 'hazard-rate', gloss: 'a broad shoulder, then a steep fall' },
  pointIndependence: {
    term: 'point independence',
    plural: 'point independence',
    gloss: 'the two observers err independently on the line only',
  },
  fullIndependence: {
    term: 'full independence',
    plural: 'full independence',
    gloss: 'the two observers err independently at every perpendicular distance',
  },

  // the model
  density: { term: 'density', plural: 'densities', gloss: 'mussels on a square metre of bed' },
  abundance: { term: 'abundance', gloss: 'mussels on all of the surveyed habitat' },
  countDistribution: { term: 'count distribution', short: 'counts', gloss: 'how clumped' },
  poisson: { term: 'Poisson', gloss: 'not clumped: counts vary by chance alone' },
  nb1: {
    term: 'negative binomial (NB1)',
    short: 'NB1',
    gloss: 'clumped, with a variance linear in the mean',
  },
  nb2: {
    term: 'negative binomial (NB2)',
    short: 'NB2',
    gloss: 'clumped, with a variance quadratic in the mean',
  },
  overdispersion: {
    term: 'overdispersion',
    plural: 'overdispersion',
    gloss: 'counts vary more than the count distribution says',
  },
  transectEffect: {
    term: 'random effect of transect',
    plural: 'random effects of transect',
    short: 'random effect',
    gloss: 'transects differ beyond their habitat, with standard deviation τ',
  },
  spline: { term: 'natural cubic spline', short: 'spline', gloss: 'a smooth curve of depth' },
  degreesOfFreedom: {
    term: 'degrees of freedom',
    plural: 'degrees of freedom',
    gloss: 'how far the curve may bend',
  },
  logLikelihood: {
    term: 'log-likelihood',
    gloss: 'how well a model fits, before its size is held against it',
  },
  aicc: {
    term: 'AICc',
    gloss: 'how well a model fits for its number of parameters; lower is better',
  },
  deltaAicc: { term: 'ΔAICc', plural: 'ΔAICc', gloss: 'how far above the best model, by AICc' },
  akaikeWeight: {
    term: 'Akaike weight',
    short: 'weight',
    gloss: 'how much the data speak for a model, of all compared',
  },
  modelAveraging: {
    term: 'model averaging',
    gloss: 'a mean over the models compared, each with its weight',
  },

  availability: {
    term: 'availability',
    gloss: 'share of the clusters that can be detected at all',
  },
  plantedShell: {
    term: 'planted shell',
    gloss: 'one of a known number that a third person put into the strip before it was searched',
  },
  distanceClasses: {
    term: 'classes of perpendicular distance',
    gloss: 'distances that were rounded are known by class only',
  },
  availabilityError: {
    term: 'standard error of the availability',
    gloss: 'how far the share given may be off',
  },

  // how sure
  confidenceInterval: {
    term: 'confidence interval',
    gloss: 'the range that would hold the truth in so many of a hundred surveys like this one',
  },
  ci: { term: 'CI', plural: 'CIs', gloss: 'confidence interval' },
  standardError: { term: 'standard error', gloss: 'spread of an estimate from survey to survey' },
  se: { term: 'SE', plural: 'SEs', gloss: 'standard error' },
  cv: { term: 'CV', plural: 'CVs', gloss: 'standard error over estimate' },
  designBasedEstimate: {
    term: 'design-based estimate',
    gloss: 'clusters per searched m², corrected for detection, without a habitat model',
  },
  upperLimit: { term: 'upper limit', gloss: 'how many there can be where nothing was detected' },
  bootstrap: {
    term: 'bootstrap',
    gloss: 'transects drawn anew, with replacement, and estimated again',
  },
  bootstrapReplicate: { term: 'bootstrap replicate', gloss: 'one such draw of transects' },
  randomSeed: { term: 'random seed', gloss: 'the same seed gives the same random numbers' },
  simulationStudy: {
    term: 'simulation study',
    plural: 'simulation studies',
    gloss: 'this design simulated many times and estimated each time',
  },
  bias: { term: 'bias', plural: 'biases', gloss: 'how far estimates are off on average' },
  rmse: {
    term: 'RMSE',
    plural: 'RMSEs',
    gloss: 'how far estimates are off, bias and spread together',
  },
  coverage: {
    term: 'coverage',
    plural: 'coverage',
    gloss: 'share of the intervals that hold the truth',
  },

  // checks on the model
  fitByObserver: { term: 'goodness of fit by observer', gloss: null },
  fitByTransect: { term: 'goodness of fit by transect', gloss: null },
  sizeByRole: {
    term: 'cluster size by role',
    gloss: 'whether both observers detect clusters of the sizes that the model expects of them',
  },
  fitByDistance: { term: 'goodness of fit by perpendicular distance', gloss: null },
  fitBySubstrate: { term: 'goodness of fit by substrate', gloss: null },
  fitByDepth: { term: 'goodness of fit by depth', gloss: null },
  residualDistribution: {
    term: 'distribution of residuals',
    gloss: 'whether counts of single segments vary as the count distribution says',
  },
  spatialAutocorrelation: {
    term: "spatial autocorrelation (Moran's I)",
    gloss: 'whether neighbouring transects err alike',
  },
  influence: {
    term: 'influence of single transects',
    gloss: 'how far the total moves without each transect',
  },
  modelAgainstDesign: {
    term: 'model against design-based estimate',
    gloss: 'whether the habitat model agrees with effort alone',
  },
  completeSeparation: {
    term: 'complete separation',
    gloss: 'a term for which the likelihood has no finite maximum',
  },
  onBoundary: {
    term: 'estimate on the boundary',
    plural: 'estimates on the boundary',
    gloss: 'a parameter at the end of its range',
  },

  // choices of an analysis
  independence: {
    term: 'independence of the observers',
    plural: 'independence of the observers',
    gloss: 'where what one observer detects says nothing of what the other does',
  },
  sizeBySubstrate: { term: 'cluster size by substrate', gloss: null },
  segmentLength: { term: 'greatest length of a segment', gloss: null, unit: 'm' },
  waypointError: { term: 'standard error of a waypoint', gloss: null, unit: 'm' },
  bearingError: { term: 'standard error of a bearing', gloss: null, unit: '°' },
  cellSide: { term: 'side of a grid cell', gloss: null, unit: 'm' },
  greatestDepth: { term: 'greatest depth', gloss: null, unit: 'm' },
  depthTolerance: {
    term: 'depth tolerance',
    gloss: 'how far beyond the recorded depths the surveyed habitat reaches',
    unit: 'm',
  },
  farFromTransects: {
    term: 'bed far from transects',
    gloss: 'farther from every transect than neighbouring ones usually lie apart',
  },
  densityThreshold: {
    term: 'density threshold',
    gloss: 'the density that is looked for on the map',
  },
  confidenceLevel: {
    term: 'confidence level',
    gloss: 'the share of such intervals that hold the truth',
  },
  variant: { term: 'variant', gloss: 'the analysis with other choices, kept under a name' },

  // files
  error: { term: 'error', gloss: 'stops the estimate' },
  notice: { term: 'notice', gloss: 'does not stop the estimate, and says what was done' },
  fix: { term: 'fix', plural: 'fixes', gloss: null },
} as const satisfies Record<string, Entry>;

export type TermId = keyof typeof entries;

export const GLOSSARY: Readonly<Record<TermId, Entry>> = entries;

/** As inside of a sentence: `transect`. */
export function term(id: TermId): string {
  return GLOSSARY[id].term;
}

/** More than one: `transects`, `strata`. */
export function terms(id: TermId): string {
  const { term: one, plural } = GLOSSARY[id];
  return plural ?? `${one}s`;
}

/** `1 transect`, `12 transects`; the number is written by the caller. */
export function counted(n: number, written: string, id: TermId): string {
  return `${written} ${n === 1 ? term(id) : terms(id)}`;
}

/** The term where a column is narrow: `NB1`, `random effect`. */
export function shortTerm(id: TermId): string {
  const { term: whole, short } = GLOSSARY[id];
  return short ?? whole;
}

/** As a label or heading: `Transect`. */
export function label(id: TermId): string {
  return capital(term(id));
}

/** A heading over many: `Transects`. */
export function labels(id: TermId): string {
  return capital(terms(id));
}

/** The plain gloss; null where the term is plain by itself. */
export function gloss(id: TermId): string | null {
  return GLOSSARY[id].gloss;
}

/** A label with its unit, for the head of a column: `Depth (m)`. */
export function labelWithUnit(id: TermId): string {
  const { unit } = GLOSSARY[id];
  return unit === undefined ? label(id) : `${label(id)} (${unit})`;
}

/** First letter in capitals, the rest as it is. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
