/**
 * The words of the public map, the poster and the pictures in English: plain enough for a reader of fourteen. They never
 * say that a place has no mussels; what was searched without a detection is told as that.
 */

export const en = {
  // the number
  title: '{lake}: mussels on the lake bed',
  lead: 'About {estimate} mussels; it could be {lower} to {upper}, in the part of the lake that was surveyed.',
  leadWithoutRange:
    'About {estimate} mussels in the part of the lake that was surveyed. How far off this number may be is not known.',
  leadClusters:
    'About {estimate} clusters of mussels; it could be {lower} to {upper}, in the part of the lake that was surveyed.',
  leadClustersWithoutRange:
    'About {estimate} clusters of mussels in the part of the lake that was surveyed. How far off this number may be is not known.',
  leadNothing:
    'Divers detected no mussels where they searched. That does not show that there are none in the lake.',
  leadCounted: {
    one: 'Divers counted one mussel where they searched. There is no number for the whole lake yet.',
    other:
      'Divers counted {count} mussels where they searched. There is no number for the whole lake yet.',
  },
  limit:
    'In the part of the lake that was surveyed there could still be up to {upper} clusters. A cluster is one mussel, or several that sit together.',
  cluster: 'A cluster is one mussel, or several that sit together.',
  holds:
    'This part is {hectares} ({acres}) of lake bed, {from} to {to} m deep ({fromFeet} to {toFeet} ft).',
  searchedDepths: 'The divers were {from} to {to} m deep ({fromFeet} to {toFeet} ft).',
  rest: 'Another {hectares} ({acres}) of lake bed is not in this number. Mussels may live there too.',
  far: '{share} of this part lies far from any place that was searched; there the number is less sure.',
  missed: 'Mussels that the divers missed are not in this number.',
  rangeMeans:
    'Why a range? Divers can search only a small part of the bed, and they miss some mussels. Ranges made this way hold the true number in about {level} of surveys. Errors in the maps of the lake come on top.',
  effort: {
    one: 'Divers searched one line on the lake bed ({days}), {squareMetres} m² in all.',
    other: 'Divers searched {count} lines on the lake bed ({days}), {squareMetres} m² in all.',
  },
  meansNotDetected:
    'Searched, not detected: mussels may still live there. Divers miss some, above all small ones.',

  // the map
  map: 'Map of {lake}',
  mapDescribed: {
    one: 'Map of {lake} with one searched place; mussels were detected at {detected} of them. The table below says the same in words.',
    other:
      'Map of {lake} with {count} searched places; mussels were detected at {detected} of them. The table below says the same in words.',
  },
  mapKeys:
    'Arrow keys move the map, + and − zoom, 0 shows the whole lake, Enter tells about the place under the cross, N goes to the next searched place.',
  mapHint: 'Click or tap a place to read about it.',
  zoomIn: 'Zoom in',
  zoomOut: 'Zoom out',
  wholeLake: 'Whole lake',
  language: 'Language',
  close: 'Close',
  northMark: 'North',
  key: 'What the map shows',
  detected: 'Mussels detected',
  notDetected: 'Searched, not detected',
  notSearched: 'Not searched',
  surveyedPart: 'Edge of the surveyed part',
  depth: 'Depth',
  depthBand: '{from} to {to} m ({fromFeet} to {toFeet} ft)',
  kilometres: '{length} km',
  metres: '{length} m',

  // a spot
  spotDetected: {
    one: 'Divers searched here ({days}) and counted one mussel.',
    other: 'Divers searched here ({days}) and counted {count} mussels.',
  },
  spotNotDetected:
    'Divers searched here ({days}) and detected no mussels. Some may have been missed.',
  spotSquareDetected: {
    one: 'Divers searched in this square ({days}) and counted one mussel.',
    other: 'Divers searched in this square ({days}) and counted {count} mussels.',
  },
  spotSquareNotDetected:
    'Divers searched in this square ({days}) and detected no mussels. Some may have been missed.',
  spotInside:
    'Nobody searched here. The bottom and the depth are like those that were searched, so this place is part of the number.',
  spotOutside:
    'Nobody searched here, and this place is not in the number. Mussels may live here too.',
  spotDepth: 'The water is about {from} to {to} m deep ({fromFeet} to {toFeet} ft).',
  spotLand: 'This is not in the lake.',

  // the tables
  inWords: 'The map in words',
  places: 'Places that were searched',
  part: 'Part of the lake',
  result: 'Result',
  counted: 'Mussels counted',
  when: 'When',
  byDepth: 'Mussels by depth, in the part that was surveyed',
  area: 'Lake bed',
  areaBoth: '{hectares} ({acres})',
  mussels: 'Mussels, about',
  couldBe: 'It could be',
  fromTo: '{lower} to {upper}',
  partNorth: 'north',
  partNorthEast: 'north-east',
  partEast: 'east',
  partSouthEast: 'south-east',
  partSouth: 'south',
  partSouthWest: 'south-west',
  partWest: 'west',
  partNorthWest: 'north-west',
  partMiddle: 'middle',

  // what to do
  doHeading: 'What you can do',
  doLook:
    'Before you leave the shore, look over the boat, trailer, anchor, nets and boots. Take off all plants, mud and animals.',
  doDrain:
    'On land, pull the plugs and let all water run out of the motor, the boat, tanks and buckets.',
  doDry:
    'Let everything dry all the way through before it goes into other water. Young mussels are too small to see.',
  doKeep: 'Never carry mussels, lake water or live bait from one lake to another.',
  doTell:
    'If you see mussels in another lake, take a photo, write down the place and the date, and report it.',
  doNotTreat:
    'Do not put anything into the lake to kill mussels. It can harm native mussels and other animals, and it may be against the law.',
  doRules: 'Local rules come first. Follow the signs at your lake.',

  // about
  factLine: '{name}: {value}',
  about: 'About this map',
  surveyed: 'Surveyed',
  ask: 'Who to ask',
  nextUpdate: 'Next update',
  coarse:
    'Places are shown as squares of {size} m. Each stands for what was searched somewhere inside of it.',
  source: 'Shore and depths are as in the maps of the lake that were used.',
  notNavigation: 'Not for navigation, and not for planning a dive.',
} as const;
