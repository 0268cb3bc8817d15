/**
 * The methods of one result as a paragraph for a paper or a permit file, with what it cites, the version and the settings:
 * everything that another person needs for the same numbers. Written from the records of the result alone.
 */

import { valueAt } from '../../shared/choice-values.ts';
import type { Coefficient, CoefficientPart } from '../../shared/estimate.ts';
import { counted, type TermId, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatArea, formatCount, formatDepthBand, type UnitSystem } from '../../shared/units.ts';
import { VERSION } from '../../shared/version.ts';
import { listed } from '../../shared/words.ts';
import { checksSentence, readChecks } from './checks.ts';
import { CHOICE_GROUPS, choiceName, defaultOf, unitOf, valueWords } from './choices.ts';
import { habitatBand } from './depths.ts';
import { modelName } from './model-names.ts';
import { dependsOn } from './model-used.ts';
import { intervalName, quantityInFull } from './quantity.ts';
import { type Citations, citations } from './references.ts';
import { daysInFull, searched } from './searched.ts';

export interface MethodsRead {
  paragraph: string;
  /** entries of what the paragraph cites, in alphabetical order */
  references: string[];
  /** both, to be copied */
  text: string;
}

export type MethodsResult = Pick<
  SurveyResult,
  'estimate' | 'survey' | 'segments' | 'analysis' | 'domain' | 'models' | 'checks'
>;

export function readMethods(result: MethodsResult, units: UnitSystem = 'metric'): MethodsRead {
  const cited = citations();
  const nothing = result.estimate.data.detections === 0;
  const sentences = [
    surveyedWords(result, units),
    ...(nothing ? [nothingWords(cited)] : modelWords(result, cited)),
    ...(nothing ? [] : totalWords(result, cited, units)),
    settingsWords(result),
  ];
  const paragraph = sentences.join(' ');
  const references = cited.list();
  return {
    paragraph,
    references,
    text: `${paragraph}${references.length === 0 ? '' : `\n\nReferences\n${references.join('\n')}`}\n`,
  };
}

function surveyedWords({ survey, segments, estimate }: MethodsResult, units: UnitSystem): string {
  const facts = searched(survey, segments);
  const kinds = [
    facts.belts === 0 ? null : counted(facts.belts, formatCount(facts.belts), 'beltTransect'),
    facts.distances === 0
      ? null
      : counted(facts.distances, formatCount(facts.distances), 'distanceTransect'),
  ].filter((kind) => kind !== null);
  const depths =
    facts.depths === null
      ? ''
      : ` at depths of ${formatDepthBand(facts.depths.fromM, facts.depths.toM, units)}`;
  const followed =
    facts.single === facts.transects
      ? `by one observer each, without a ${term('secondaryObserver')}`
      : `by a ${term('primaryObserver')}, who marked each detected ${term('cluster')}, and a ${term('secondaryObserver')}, who searched behind for what was missed${facts.single === 0 ? '' : ` (${facts.single} of the transects by one observer alone)`}`;
  const found =
    facts.clusters === 0
      ? 'Nothing was detected.'
      : `${counted(facts.clusters, formatCount(facts.clusters), 'detectedCluster')} held ${counted(facts.mussels, formatCount(facts.mussels), 'mussel')}.`;
  return `Mussels of ${estimate.lake} were surveyed on ${listed(kinds, 'and')} (${daysInFull(facts.days)}; ${formatArea(facts.areaM2, units)} searched${depths}), ${followed}. ${found} The transects were cut into ${counted(facts.segments, formatCount(facts.segments), 'segment')} of one substrate, plant cover and depth.`;
}

function nothingWords({ cite }: Citations): string {
  return `No model was fitted; the limit is the density at which the chance to detect nothing is one minus the confidence level, with detection taken as certain ${cite('Hanley & Lippman-Hand 1983')}.`;
}

function modelWords(result: MethodsResult, { cite }: Citations): string[] {
  const { estimate, analysis, survey } = result;
  const { model, coefficients } = estimate;
  const family: TermId = model.family;
  const spline =
    analysis.density.depth === 'curve' &&
    coefficients.some((c) => c.part === 'density' && c.kind === 'depth');
  const density = [
    `The number of clusters on a segment was modelled by a ${term(family)} count regression ${cite('Cameron & Trivedi 1998')} with the searched area as exposure; log density ${dependence(coefficients, 'density')}`,
    spline
      ? `, depth as a ${term('spline')} with ${analysis.density.depth_df} ${terms('degreesOfFreedom')} ${cite('Hastie et al. 2009')}`
      : '',
    model.transect_effect
      ? `, with a normal ${term('transectEffect')} integrated out by adaptive Gauss–Hermite quadrature ${cite('Liu & Pierce 1994')}`
      : '',
    '.',
  ].join('');
  const fixed = estimate.detection?.fixed != null;
  const detection = fixed
    ? `Where no ${term('secondaryObserver')} searched, the ${term('detectionProbability')} was taken as 1.`
    : '';
  const double = survey.transects.some((t) => t.secondary !== null)
    ? `Detection was estimated in the same likelihood from the two observers as a dependent double-observer (removal) survey ${cite('Cook & Jacobson 1979', 'Nichols et al. 2000')}; the logit of the ${term('detectionProbability')} ${dependence(coefficients, 'detection')}.`
    : '';
  return [density, double, detection, distanceWords(result, cite), fitWords(result, cite)].filter(
    (sentence) => sentence !== '',
  );
}

function dependence(coefficients: readonly Coefficient[], part: CoefficientPart): string {
  const about = dependsOn(coefficients, part);
  return about === null ? 'was constant' : `was linear in ${about}`;
}

function distanceWords({ estimate, analysis }: MethodsResult, cite: Citations['cite']): string {
  const shape = estimate.detection?.shape ?? null;
  if (shape === null) return '';
  const id: TermId = shape === 'half-normal' ? 'halfNormal' : 'hazardRate';
  const point = analysis.detection.independence === 'point';
  const independence = point
    ? `under ${term('pointIndependence')} ${cite('Laake & Borchers 2004', 'Borchers et al. 2006')}`
    : `under ${term('fullIndependence')}`;
  return `On distance transects it fell with ${term('perpendicularDistance')} by a ${term(id)} ${term('detectionFunction')} ${cite('Buckland et al. 2001')} ${independence}.`;
}

function fitWords(result: MethodsResult, cite: Citations['cite']): string {
  const compared = result.models.length;
  const chosen = result.models.find((m) => m.chosen);
  const used = chosen === undefined ? '' : ` (${modelName(chosen)})`;
  const choice =
    compared > 1
      ? `The model${used} was chosen from ${compared} by AICc ${cite('Hurvich & Tsai 1989')}`
      : `The model${used} was set beforehand`;
  const sizes = result.estimate.coefficients.some((c) => c.part === 'size')
    ? `; ${term('clusterSize')} was one plus a count with a mean and a size parameter of its own`
    : '';
  return `All parts were fitted together by maximum likelihood${sizes}. ${choice}.`;
}

function totalWords(result: MethodsResult, { cite }: Citations, units: UnitSystem): string[] {
  const { estimate, analysis, domain } = result;
  const { abundance, bootstrap, design_based: design } = estimate;
  const checks = checksSentence(readChecks(result));
  return [
    abundance === null
      ? ''
      : `Density was summed over the mapped bed of the ${term('surveyedHabitat')} (${formatArea(abundance.area_m2, units)}, ${habitatBand(domain, units)} deep), with variance by the delta method over all parameters and a log-normal ${intervalName(analysis.interval)} ${cite('Burnham et al. 1987')}: ${quantityInFull(abundance.mussels ?? abundance.clusters, abundance.mussels === null ? terms('cluster') : terms('mussel'), analysis.interval)}.`,
    bootstrap === null
      ? ''
      : `A second interval came from ${formatCount(bootstrap.replicates)} bootstrap replicates of transects within design.`,
    design.clusters_per_m2 === null
      ? ''
      : `The model was held against a ${term('designBasedEstimate')} ${cite('Fewster et al. 2009')}.`,
    checks === null
      ? ''
      : `The fit was checked with randomised quantile residuals ${cite('Dunn & Smyth 1996')}, Moran's I ${cite('Moran 1950')} and observed against expected counts. ${checks}`,
  ].filter((sentence) => sentence !== '');
}

/** Every choice that is not the default, so that the same files give the same numbers. */
function settingsWords({ analysis }: MethodsResult): string {
  const changed = CHOICE_GROUPS.flatMap(({ paths }) => paths)
    .filter((path) => path !== 'seed' && valueAt(analysis, path) !== defaultOf(path))
    .map((path) => {
      const value = valueAt(analysis, path);
      const said = unitOf(path) === null ? String(value) : valueWords(path, value);
      return `${choiceName(path).toLowerCase()} ${typeof value === 'number' ? said : valueWords(path, value)}`;
    });
  const settings =
    changed.length === 0
      ? 'all settings at their defaults'
      : `settings other than the defaults: ${changed.join('; ')}`;
  return `Computed with Shoalwise ${VERSION} (${term('randomSeed')} ${analysis.seed}; ${settings}).`;
}
