/** Words and codes of other people's sheets, and which of our listed values each may stand for. */

import { WORDS_ABROAD } from './codes-abroad.ts';

/** A value as it is compared: lower case, without accents, signs as spaces. */
export function bare(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}%+<>]+/gu, ' ')
    .trim();
}

type Words = Record<string, string>;

const DESIGN: Words = {
  belt: 'belt( transect)?|b|bt|strip( transect)?|strip search|two ropes?|2 ropes?|double( rope)?',
  distance:
    'distance( transect| sampling)?|d|dt|ds|line( transect)?|one rope|1 rope|single( rope)?',
};
const ROLE: Words = {
  primary:
    'primary( (observer|diver))?|prim|pri|p|1|1st|first|one|lead( diver)?|a|front|(obs(erver)?|diver) ?(1|a|one)',
  secondary:
    'secondary( (observer|diver))?|sec|s|2|2nd|second|two|follow(er|ing)?|b|rear|back|(obs(erver)?|diver) ?(2|b|two)',
};
const STOP: Words = {
  rope_end:
    '(end of |full )?(rope|line|transect|tape)( end(ed)?)?|end|rope end|full( length)?|complete(d)?|r|re|none',
  thermocline: 'thermo ?cline|thermo|cold( water)?|t|th|tc',
  obstacle: 'obstacle|obstruct(ion|ed)|o|ob|log|tree|dock|pier|boulder|wall|weeds?|shore|blocked',
};
const BEARING_REF: Words = {
  magnetic: 'magnetic|mag|m|compass|mag north|magnetic north|magn',
  true: 'true|t|true north|geographic|gps|map|grid',
};
/** Grain sizes after Wentworth (1922): clay and silt below 1/16 mm, sand to 2 mm, granules to 4 mm, pebbles to 64 mm. */
const SUBSTRATE: Words = {
  mud: 'mud|md|m|muck|ooze|clay|soft( (mud|sediment))?|organic( matter)?|muddy',
  silt: 'silt|si|st|silty|slt|marl',
  sand: 'sand|s|sa|sd|snd|sandy|fine sand|coarse sand',
  gravel: 'gravel|g|gr|gv|grv|grvl|gravelly|granules?|fine gravel',
  pebble: 'pebbles?|p|pb|pe|peb|pbl|coarse gravel',
  rock: 'rocks?|r|rk|ro|rck|rocky|boulders?|bo|bl|bld|bedrock|br|stones?|ledge',
  other: 'other|o|oth|else|x|wood|logs?|debris|shells?',
};
/** Of 0 none to 4 dense. */
const PLANT_COVER: Words = {
  '0': '0|none|no|nil|no plants|bare|n|zero|without|not any',
  '1': '1|sparse|low|few|trace|light|scattered|l|some|1 25 ?%?',
  '2': '2|moderate|medium|mod|m|patchy|26 50 ?%?|25 50 ?%?',
  '3': '3|common|high|abundant|h|heavy|thick|51 75 ?%?|50 75 ?%?',
  '4': '4|dense|d|very (dense|high|abundant|heavy)|full|choked|matted|continuous|76 100 ?%?|75 100 ?%?',
};

function compile(words: Words, abroad: Words): (text: string) => string | null {
  const patterns = [words, abroad].flatMap((list) =>
    Object.entries(list).map(
      ([value, pattern]) => [value, new RegExp(`^(?:${pattern})$`)] as const,
    ),
  );
  return (text) => {
    const plain = bare(text);
    return patterns.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
  };
}

/** The listed value that a word most likely stands for; null where none is likely. */
export const meaningOf: Record<
  'design' | 'role' | 'stop' | 'bearing_ref' | 'substrate' | 'plant_cover',
  (text: string) => string | null
> = {
  design: compile(DESIGN, WORDS_ABROAD.design),
  role: compile(ROLE, WORDS_ABROAD.role),
  stop: compile(STOP, WORDS_ABROAD.stop),
  bearing_ref: compile(BEARING_REF, WORDS_ABROAD.bearing_ref),
  substrate: compile(SUBSTRATE, WORDS_ABROAD.substrate),
  plant_cover: compile(PLANT_COVER, WORDS_ABROAD.plant_cover),
};

/** `sand/gravel`, `Sand & gravel`, `sand, some gravel` → its classes as they stand, the dominant one first. */
export function classParts(text: string): string[] {
  return text
    .split(/\s*(?:[+/&,;]|\b(?:and|with|over|y|e|con|sobre|et|avec|sur|und|mit|auf)\b)\s*/i)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

/** What stands for nothing recorded. */
export function isBlank(text: string): boolean {
  return text === '' || /^(?:[-–—.?]+|n\.?\/?a\.?|nd|null|blank)$/i.test(text);
}

/** A count that says that nothing was found. */
export function isNothing(text: string): boolean {
  return /^(?:0+|none|nothing|no mussels|no detections|nil|none (?:found|detected|seen)|nada|ningun[oa]?|ninguna? encontrad[oa]|rien|aucune?|nichts|keine?)$/i.test(
    text,
  );
}
