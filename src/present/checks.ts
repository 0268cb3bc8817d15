/** The checks on the model in words: what each is called, what was computed, and what that means for the number. */

import { counted, gloss, label, type TermId, term, terms } from '../../shared/glossary.ts';
import type {
  AutocorrelationCheck,
  Check,
  CheckName,
  FitCheck,
  SurveyResult,
  Verdict,
} from '../../shared/result.ts';
import { listed } from '../../shared/words.ts';

export type { CheckName, Verdict };

export interface CheckWords {
  name: CheckName;
  /** as a heading */
  title: string;
  /** as inside of a sentence */
  term: string;
  /** null where the title is plain by itself */
  gloss: string | null;
  verdict: Verdict;
  /** what was computed, and what that means for the number: `figures: meaning.` is the sentence */
  figures: string;
  meaning: string;
  sentence: string;
}

export type Checked = Pick<SurveyResult, 'checks' | 'survey'>;

const TERMS: Record<CheckName, TermId> = {
  observer: 'fitByObserver',
  transect: 'fitByTransect',
  'cluster-size': 'sizeByRole',
  'perpendicular-distance': 'fitByDistance',
  substrate: 'fitBySubstrate',
  depth: 'fitByDepth',
  overdispersion: 'overdispersion',
  residuals: 'residualDistribution',
  'spatial-autocorrelation': 'spatialAutocorrelation',
  influence: 'influence',
  'design-based': 'modelAgainstDesign',
};

/** The gravest first. */
const VERDICTS: readonly Verdict[] = ['fails', 'doubtful', 'saturated', 'holds'];

/** The gravest first, otherwise in their order; null when the model was not checked. */
export function readChecks({ checks, survey }: Checked): CheckWords[] | null {
  if (checks === null) return null;
  const names = survey.transects.map((t) => t.transect);
  return VERDICTS.flatMap((verdict) =>
    checks.checks.filter((c) => c.verdict === verdict).map((c) => wordsOf(c, names)),
  );
}

function wordsOf(c: Check, names: readonly string[]): CheckWords {
  const id = TERMS[c.name];
  const [figures, meaning] = [figuresOf(c, names), meaningOf(c, names)];
  return {
    name: c.name,
    title: label(id),
    term: term(id),
    gloss: glossOf(c.name),
    verdict: c.verdict,
    figures,
    meaning,
    sentence: `${figures}: ${meaning}.`,
  };
}

/** A check asks whether there is what its term names. */
function glossOf(name: CheckName): string | null {
  const meaning = gloss(TERMS[name]);
  return name === 'overdispersion' && meaning !== null ? `whether ${meaning}` : meaning;
}

/** `overdispersion`, as inside of a sentence. */
export function checkTerm(name: CheckName): string {
  return term(TERMS[name]);
}

/** One of the checks; null when it was not made. */
export function checkOf(checked: Checked, name: CheckName): CheckWords | null {
  return readChecks(checked)?.find((c) => c.name === name) ?? null;
}

/** `Of 9 checks on the model 7 hold and 2 are doubtful (overdispersion; …).`; null when there are none. */
export function checksSentence(checks: readonly CheckWords[] | null): string | null {
  if (checks === null || checks.length === 0) return null;
  const of = (verdict: Verdict) => checks.filter((c) => c.verdict === verdict);
  const all = checks.length;
  const holds = of('holds').length;
  if (holds === all)
    return all === 1 ? 'The one check on the model holds.' : `All ${all} checks on the model hold.`;
  const named = (some: CheckWords[]) => `(${some.map((c) => c.term).join('; ')})`;
  const doubtful = of('doubtful');
  const fails = of('fails');
  const saturated = of('saturated');
  const parts = [
    holds === 0 ? null : `${holds} ${holds === 1 ? 'holds' : 'hold'}`,
    doubtful.length === 0
      ? null
      : `${doubtful.length} ${doubtful.length === 1 ? 'is' : 'are'} doubtful ${named(doubtful)}`,
    fails.length === 0
      ? null
      : `${fails.length} ${fails.length === 1 ? 'fails' : 'fail'} ${named(fails)}`,
    saturated.length === 0 ? null : `${saturated.length} cannot be tested ${named(saturated)}`,
  ].filter((part) => part !== null);
  return `Of ${all} ${all === 1 ? 'check' : 'checks'} on the model ${listed(parts, 'and')}.`;
}

/** `χ² 1.2 on 2 degrees of freedom, p = 0.55` */
function figuresOf(c: Check, names: readonly string[]): string {
  switch (c.name) {
    case 'observer':
    case 'perpendicular-distance':
    case 'substrate':
    case 'depth':
      return goodnessFigures(c);
    case 'transect':
      return `Over ${counted(c.transects, String(c.transects), 'transect')}, ${probability(c.p)}`;
    case 'cluster-size':
      return `Secondary observers' ${terms('cluster')} hold ${c.secondaryMean.toFixed(2)} mussels on average, ${c.expectedMean.toFixed(2)} expected, ${c.p === null ? 'no degrees of freedom left' : probability(c.p)}`;
    case 'overdispersion':
      return `Pearson dispersion ${c.dispersion.toFixed(2)} (1 is right)`;
    case 'residuals':
      return `Quantile residuals with skewness ${signed(c.skewness)} and kurtosis ${signed(c.kurtosis)} (0 and 3 are right), ${probability(c.p)}`;
    case 'spatial-autocorrelation':
      return `Moran's I ${signed(c.moranI)}, ${probability(c.p)}${standardErrors(c)}`;
    case 'influence':
      return `Without ${names[c.transect]} the total would be ${(100 * Math.abs(c.change)).toFixed(0)} % ${c.change < 0 ? 'lower' : 'higher'}`;
    case 'design-based':
      return `${c.model.toPrecision(3)} clusters per m² of searched bed by the model, ${c.design.toPrecision(3)} by the ${term('designBasedEstimate')}`;
  }
}

const FIT: Record<FitCheck['name'], { holds: string; not: string }> = {
  observer: {
    holds: 'each observer detected about what the model expects in each role',
    not: 'what the observers detected in their roles is not what the model expects; detection, and with it the total, may be off: check the roles on the sheets, or let detection depend on more',
  },
  'perpendicular-distance': {
    holds: 'detection falls with perpendicular distance as the fitted detection function says',
    not: 'the perpendicular distances do not follow the fitted detection function (heaped at 0 or 1 m, or too few near the line); the density from distance transects may be off: distances that were rounded can be taken by classes with the rounded values inside (detection.distance_classes; to 0.5 m: 0, 0.25, 0.75, 1)',
  },
  substrate: {
    holds: 'detected and expected clusters agree on every substrate',
    not: 'some substrate holds more or fewer clusters than the model says; the strata of it are off, the total less so',
  },
  depth: {
    holds: 'detected and expected clusters agree at every depth',
    not: 'some depths hold more or fewer clusters than the model says; give the curve of depth more degrees of freedom (density.depth_df)',
  },
};

const SATURATED =
  'the fitted model reproduces these rows whatever was observed, so they cannot show whether it is right';

function meaningOf(c: Check, names: readonly string[]): string {
  switch (c.name) {
    case 'observer':
    case 'perpendicular-distance':
    case 'substrate':
    case 'depth':
      if (c.verdict === 'saturated') return SATURATED;
      return c.verdict === 'holds' ? FIT[c.name].holds : FIT[c.name].not;
    case 'transect': {
      const { transect, detected, secondary, expected } = c.oddest;
      return c.verdict === 'holds'
        ? 'on every transect the secondary observer detected about the share that the model expects'
        : `on some transects the secondary observer detected far more or less than the model expects, most of all on ${names[transect]} (${secondary} of ${detected} clusters, ${expected.toFixed(1)} expected); detection, and with it the total, may be far off: check whether roles were exchanged on their sheets`;
    }
    case 'cluster-size':
      if (c.verdict === 'saturated') return SATURATED;
      return c.verdict === 'holds'
        ? 'both observers detect the sizes that the model expects of them'
        : c.secondaryMean < c.expectedMean
          ? 'the primary takes the large ones, so small ones are missed more often than the model says and the total may be too low: let detection depend on cluster size (detection.cluster_size)'
          : 'the secondary observer records larger ones than are left over; check how mussels were counted in either role';
    case 'overdispersion':
      return {
        holds:
          'the counts vary as the model says, so the confidence interval can be taken at its word',
        doubtful:
          c.dispersion > 1
            ? 'the counts vary more than the model says; the confidence interval may be somewhat too narrow'
            : 'the counts vary less than the model says; the confidence interval may be wider than needed',
        fails:
          'the counts vary much more than the model says; the confidence interval is too narrow, use the bootstrap',
      }[c.verdict];
    case 'residuals':
      return {
        holds: 'the counts of single segments follow the count distribution',
        doubtful:
          'the counts of single segments do not quite follow the count distribution; the total is little affected',
        fails:
          'the counts of single segments do not follow the count distribution; prefer the bootstrap interval',
      }[c.verdict];
    case 'spatial-autocorrelation':
      return c.verdict === 'holds'
        ? 'neighbouring transects do not err alike, so they count as separate evidence'
        : c.moranI < 0
          ? UNLIKE
          : ALIKE[c.spread ?? 'unknown'];
    case 'influence':
      return {
        holds: 'no single transect decides the total',
        doubtful: 'the total leans on this transect; look at its sheet again',
        fails:
          'this transect decides the total; check its sheet, and add transects like it before acting on the total',
      }[c.verdict];
    case 'design-based':
      return c.verdict === 'holds'
        ? 'they agree within their errors'
        : 'they disagree beyond their errors: the habitat model does not fit the searched bed; do not rely on the total before the other checks are understood';
  }
}

/** What neighbours that err alike do to the interval depends on where the transects lie. */
const ERR_ALIKE =
  'neighbouring transects err alike: something that the model does not know changes along the shore';
const ALIKE: Record<NonNullable<AutocorrelationCheck['spread']> | 'unknown', string> = {
  round: `${ERR_ALIKE}; as transects lie all along the shore, its rich and its poor stretches were both searched, and the confidence interval is likely too wide (the model can follow such a change: density.shore)`,
  part: `${ERR_ALIKE}; as transects lie on a part of the shore only, the rest may be richer or poorer, and the confidence interval is likely too narrow for the whole lake`,
  unknown: `${ERR_ALIKE}; the confidence interval is likely too wide where transects lie all along the shore, and too narrow where they lie on a part of it`,
};
const UNLIKE =
  'neighbouring transects err in opposite ways, as where density changes within short distances; the confidence interval may be too narrow';

/** `; standard error of the total 14.9 % by successive differences along the shore, 18.9 % by the model` */
function standardErrors({
  cvBySuccessiveDifferences: own,
  cvByModel,
}: AutocorrelationCheck): string {
  if (own === null || cvByModel === null) return '';
  const percent = (cv: number): string => `${(100 * cv).toFixed(1)} %`;
  return `; ${term('standardError')} of the total ${percent(own)} by successive differences along the shore, ${percent(cvByModel)} by the best model`;
}

function goodnessFigures({ chi2, df, p }: FitCheck): string {
  if (chi2 === null || df === null || p === null) return 'No degrees of freedom left';
  const whole = Number(df.toFixed(1));
  return `χ² ${chi2.toFixed(1)} on ${whole} ${whole === 1 ? 'degree' : 'degrees'} of freedom, ${probability(p)}`;
}

function probability(p: number): string {
  return p < 0.001 ? 'p < 0.001' : `p = ${p.toFixed(p < 0.1 ? 3 : 2)}`;
}

function signed(x: number): string {
  return x.toFixed(2).replace('-', '−');
}
