/** The words of the report's first page and of its short version in English: read aloud to people who decide. */

export const en = {
  heading: 'Mussels on the lake bed',
  surveyed: '{lake}, surveyed {days}',

  // the answer
  answer:
    'About {estimate} mussels ({level} % confidence interval {lower} to {upper}) on {hectares} ({acres}) of surveyed habitat, {from} to {to} m ({fromFeet} to {toFeet} ft) deep.',
  answerWithoutInterval:
    'About {estimate} mussels (no interval could be given) on {hectares} ({acres}) of surveyed habitat, {from} to {to} m ({fromFeet} to {toFeet} ft) deep.',
  answerClusters:
    'About {estimate} clusters of mussels ({level} % confidence interval {lower} to {upper}) on {hectares} ({acres}) of surveyed habitat, {from} to {to} m ({fromFeet} to {toFeet} ft) deep.',
  answerClustersWithoutInterval:
    'About {estimate} clusters of mussels (no interval could be given) on {hectares} ({acres}) of surveyed habitat, {from} to {to} m ({fromFeet} to {toFeet} ft) deep.',
  counted: {
    one: 'On the {squareMetres} m² searched, at depths of {from} to {to} m, {count} mussel was counted.',
    other:
      'On the {squareMetres} m² searched, at depths of {from} to {to} m, {count} mussels were counted.',
  },
  missed:
    'Where no secondary observer searched, what the primary observer missed is not in this number.',
  far: '{areaShare} % of this habitat, with {musselsShare} % of the number, lies farther from any transect than neighbouring transects usually lie apart ({spacing} m).',
  farArea:
    '{areaShare} % of this habitat lies farther from any transect than neighbouring transects usually lie apart ({spacing} m).',
  nothingDetected:
    'No mussels were detected on the {squareMetres} m² searched, at depths of {from} to {to} m.',
  nothingLimit:
    'That does not show that there are none: up to {upper} clusters could have been missed on {hectares} ({acres}) of surveyed habitat, {from} to {to} m ({fromFeet} to {toFeet} ft) deep. This {level} % upper limit takes it that every cluster in the searched area was detected; if some were missed, it is higher.',
  nothingNoLimit:
    'That does not show that there are none; without a map of the lake there is no limit for it.',
  noMaps: 'There is no lake-wide number, because the folder lacks {files}.',
  noBed:
    'There is no lake-wide number, because no mapped bed lies within the habitats and depths that were searched.',
  along:
    'Along the transects there were about {estimate} clusters per m² ({level} % confidence interval {lower} to {upper}), corrected for those that were missed.',
  alongWithoutInterval:
    'Along the transects there were about {estimate} clusters per m² (no interval could be given), corrected for those that were missed.',
  alongDetected:
    'Along the transects there were about {estimate} clusters per m² ({level} % confidence interval {lower} to {upper}); what was missed is not in this number.',
  alongDetectedWithoutInterval:
    'Along the transects there were about {estimate} clusters per m² (no interval could be given); what was missed is not in this number.',

  // how sure
  howSure: 'How sure',
  covers:
    'Of a hundred surveys like this one, about {level} would give an interval that holds the true number; it covers chance in where mussels lay and in what was detected, not errors in the maps.',
  coversBootstrap:
    'Of a hundred surveys like this one, about {level} would give an interval that holds the true number, errors in the maps aside; drawing the transects anew {replicates} times gives {lower} to {upper}.',
  agrees:
    'Without a habitat model, from the searched area alone, there are {design} clusters per m², against {model} by the model: the two agree within their errors.',
  disagrees:
    'Without a habitat model, from the searched area alone, there are {design} clusters per m², against {model} by the model: the two disagree beyond their errors, so the number should not be relied on before the reason is known.',
  allHold: {
    one: 'The one check on the model holds.',
    other: 'All {count} checks on the model hold.',
  },
  someHold:
    'Of {all} checks on the model {holds} hold; doubtful: {doubtful}; failing: {fails}; not testable: {untestable}.',

  // its figures
  figure: 'Figure {number}',
  table: 'Table {number}',
  mapTitle: 'Mussels per m² on the surveyed habitat of {lake}, {days}.',
  mapNote: 'Shore, substrate and depth as in the maps that were given.',
  mapDescribed: 'Map of {lake}: mussels per m². Of the bed that is drawn: {shares}.',
  mapDescribedBare: 'Map of {lake}: mussels per m². No density is drawn.',
  mapAreasDescribed: 'Treatment areas drawn: {areas}.',
  mapShare: '{class} on {share} %',
  classBelow: 'below {to}',
  classBetween: '{from} to {to}',
  classAbove: '{from} and more',
  mapUnsure: 'less sure: limits of the confidence interval over {ratio} times apart',
  mapOutside: 'outside the surveyed habitat',
  mapNothing: 'searched, nothing detected',
  mapTransect: 'transect with detections',
  mapEmptyTransect: 'transect, nothing detected',
  mapArea: 'treatment area',
  north: 'North',
  densityTitle: 'Density against depth on each substrate of {lake}, {days}.',
  densityNote:
    'Thick line: mussels per m²; band: {level} % confidence interval; thin lines: the other substrates; hatched: depths that nobody sampled. Plant cover as recorded on each substrate.',
  densityDescribed:
    'Depth runs downwards, density to the right on a logarithmic scale; a panel each for {substrates}, with the confidence interval as a band.',
  densityAxis: 'mussels per m², log scale',

  // for a signature
  prepared: 'Prepared by',
  reviewed: 'Reviewed by',
  name: 'Name',
  signature: 'Signature',
  date: 'Date',

  // the short version
  where: 'Where they are',
  whereText:
    '{table} gives the number by depth, {otherTable} by substrate, the most first. A share is that of all mussels on the surveyed habitat.',
  byDepth: 'Mussels by depth, all substrates together, {lake}, {days}.',
  bySubstrate: 'Mussels by substrate, all depths together, {lake}, {days}.',
  depth: 'Depth',
  substrate: 'Substrate',
  band: '{from} to {to} m',
  bandFeet: '{from} to {to} ft',
  all: 'all',
  others: {
    one: 'one more, in the full report',
    other: '{count} more, in the full report',
  },
  hectaresColumn: 'ha',
  acresColumn: 'acres',
  musselsColumn: 'Mussels',
  intervalColumn: '{level} % confidence interval',
  upTo: 'up to {upper}',
  rangeColumn: '{lower} to {upper}',
  shareColumn: 'Share',
  percent: '{share} %',
  areas: 'Treatment areas',
  areasText:
    '{table} sets the candidate areas side by side: what lies within their part of the surveyed habitat, {from} to {to} m deep. Their shares are of all mussels on the surveyed habitat.',
  areasTitle: 'Candidate treatment areas of {lake}, {days}.',
  areaColumn: 'Area',
  leftOut: 'outside of all of them',
  outside: 'What is not in the number',
  outsideText:
    '{hectares} ({acres}) of lake bed lie outside the surveyed habitat, because nobody searched there or it was not mapped. Mussels may live there too.',
  outsideNone: 'All of the mapped bed of the lake is in the number.',
  cautions: 'Cautions',
  cautionHabitats:
    'The number holds for the habitats and depths that were searched. Bed that was mapped but not searched, and bed that was not mapped, is not in it.',
  cautionMissed:
    'Where nothing was detected, mussels may still live: some are missed, and small ones are hard to see.',
  cautionMaps:
    'The maps of outline, substrate and depth are taken as they are; their errors are not in the intervals.',
  cautionTreatment:
    'Treatment: this is a planning aid, not a prescription. Labels and permits rule, licensed applicators set the dose, and native mussels and other animals can be harmed.',
  cautionDiving:
    'Diving: cold, entanglement, boats and poor visibility are real dangers. The dive plan, the dive safety officer and local rules come first; nothing here sets a dive limit.',
  madeBy:
    'Made by Shoalwise {version}. Methods, checks, all tables and the files that it was made from are in the full report.',
} as const;
