/** What stands behind a change: the ground it is told for, whose detection was taken as one, what was treated. */

import type {
  ChangeNumbers,
  DetectionInCommon,
  PairChange,
  TreatedChange,
} from '../../shared/change.ts';
import { gloss, term, terms } from '../../shared/glossary.ts';
import {
  formatDepthBand,
  formatDigits,
  formatLandArea,
  formatPercent,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { limitInWords } from './change-limit.ts';
import { changeInWords, ratioCells, shareText } from './change-words.ts';
import { quantityInShort } from './quantity.ts';
import { TREATMENT_CAUTION } from './treatment-caution.ts';

export function groundSentences(
  { before, after, common, nothing }: PairChange,
  interval: number,
  units: UnitSystem,
): string[] {
  const ground =
    `The ${term('commonGround')} (${gloss('commonGround')}) is ${formatLandArea(common.area_m2, units)} of ` +
    `${listed(common.substrates, 'and')} from ${formatDepthBand(common.depth_from_m, common.depth_to_m, units)}: ` +
    `${shareText(common.share_before)} of the ${term('surveyedHabitat')} of ${before}, ${shareText(common.share_after)} of that of ${after}.`;
  return [ground, mapsSentence(common, before, after, interval, nothing !== null)];
}

function mapsSentence(
  { same_maps, with_earlier_maps }: PairChange['common'],
  before: string,
  after: string,
  interval: number,
  isNothing: boolean,
): string {
  if (same_maps) return `Both ${terms('survey')} have the same maps of the lake.`;
  const used = `The maps are those of ${after}`;
  if (isNothing) return `${used}.`;
  return with_earlier_maps === null
    ? `${used}; those of ${before} give no ${term('commonGround')}.`
    : `${used}; with those of ${before} there are ${changeInWords(with_earlier_maps, interval)}.`;
}

const WHY: Record<NonNullable<DetectionInCommon['why']>, string> = {
  'not-asked': `no ${term('observer')} was said to be the same`,
  'no-observer': 'nobody whose detection could be estimated dived in both',
  'other-groups': 'those who dived in both share their detection with others in one of them',
  'other-covariates': 'detection depends on other things in one of them',
  'no-maximum': 'a joint fit found no maximum',
  'higher-aicc': `the ${term('aicc')} of a joint fit is higher`,
  'nothing-detected': 'nothing was detected in one of them',
  'planted-shells': `planted shells tell the ${term('availability')} of each`,
};

export function detectionSentence({ detection, after }: PairChange): string {
  const { used, observers, aicc_shared: shared, aicc_separate: separate, why } = detection;
  const delta =
    shared === null || separate === null
      ? ''
      : ` (${term('aicc')} ${formatDigits(Math.abs(shared - separate), 2)} ${shared < separate ? 'lower' : 'higher'} with it in common)`;
  if (used)
    return `The detection of ${listed(observers, 'and')} (as they are called in ${after}) is taken as the same in both${delta}.`;
  return `Detection is each ${term('survey')}’s own: ${why === null ? 'none is in common' : WHY[why]}${delta}.`;
}

const WHY_NOT: Record<NonNullable<TreatedChange['why']>, string> = {
  'no-transect-inside': `no ${term('transect')} lies in the treated places`,
  'no-transect-outside': `no ${term('transect')} lies outside of the treated places`,
  'nothing-detected-inside': 'nothing was detected in the treated places',
  'nothing-detected-outside': 'nothing was detected outside of the treated places',
  'not-told-apart': `the treated places differ from the others by their ${terms('substrate')} and depths alone`,
  'off-common-ground': `the treated places and the others do not both have ${term('commonGround')}`,
};

/** Always with what the comparison cannot tell, and the caution. */
export function treatedSentences(
  treated: TreatedChange,
  interval: number,
  units: UnitSystem,
): string[] {
  const limits = [
    'Deaths are not told from mussels that moved, nor from young ones that settled meanwhile.',
    TREATMENT_CAUTION,
  ];
  if (treated.limit !== null && treated.treated !== null && treated.untreated !== null)
    return [
      `Where it was treated nothing was detected afterwards, which does not show that there are none: ${limitInWords(treated.limit.effect)} as the untreated ${term('commonGround')} would let expect (${formatPercent(interval)} ${term('upperLimit')}). Had there been as many as that, the search there would have brought about ${formatDigits(treated.limit.effect.expected, 2)} ${terms('detection')}${treated.limit.effect.seen ? '' : '; no effect could be seen'}.`,
      `Treated (${formatLandArea(treated.treated_m2, units)}): of ${quantityInShort(treated.treated.before, terms('mussel'))}, ${limitInWords(treated.limit.treated)}.`,
      side('Untreated', treated.untreated_m2, treated.untreated, units),
      ...togetherSentences(treated, interval),
      ...limits,
    ];
  if (treated.effect === null || treated.treated === null || treated.untreated === null) {
    const where = treated.why_survey === null ? '' : ` in ${treated.why_survey}`;
    return [
      `The treated places cannot be held against the others: ${treated.why === null ? 'one of them has no mussels' : WHY_NOT[treated.why]}${where}.`,
      ...limits,
    ];
  }
  return [
    `Where it was treated there are ${changeInWords(treated.effect, interval)} as the untreated ${term('commonGround')} would let expect${treated.effect.seen ? '' : '; no effect could be seen'}.`,
    side('Treated', treated.treated_m2, treated.treated, units),
    side('Untreated', treated.untreated_m2, treated.untreated, units),
    ...togetherSentences(treated, interval),
    ...limits,
  ];
}

/** The total by models with a density of its own for what was treated: that above has one for both. */
function togetherSentences({ together, limit }: TreatedChange, interval: number): string[] {
  if (together === null) return [];
  const without =
    limit === null ? '' : ', without what could have been missed where it was treated';
  return [
    `Both together, each with a ${term('density')} of its own, there are ${changeInWords(together, interval)}${without}. The total of all ${term('commonGround')} has one for both, and tells less where only some of it was treated.`,
  ];
}

function side(
  where: string,
  areaM2: number,
  { before, after, change }: NonNullable<TreatedChange['treated']>,
  units: UnitSystem,
): string {
  return `${where} (${formatLandArea(areaM2, units)}) ${quantityInShort(before, terms('mussel'))} became ${quantityInShort(after, terms('mussel'))}${times(change)}.`;
}

function times(change: ChangeNumbers | null): string {
  return change === null ? '' : `, ${ratioCells(change)[0]} times as many`;
}
