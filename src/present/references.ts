/** Papers and books that the methods paragraph cites, as models/METHOD.md lists them. */

/** How each is cited in the text → its entry. */
export const REFERENCES = {
  'Borchers et al. 2006':
    'Borchers, D. L., Laake, J. L., Southwell, C. & Paxton, C. G. M. (2006). Accommodating unmodeled heterogeneity in double-observer distance sampling surveys. Biometrics 62: 372–378.',
  'Buckland et al. 2001':
    'Buckland, S. T., Anderson, D. R., Burnham, K. P., Laake, J. L., Borchers, D. L. & Thomas, L. (2001). Introduction to Distance Sampling. Oxford University Press.',
  'Burnham et al. 1987':
    'Burnham, K. P., Anderson, D. R., White, G. C., Brownie, C. & Pollock, K. H. (1987). Design and Analysis Methods for Fish Survival Experiments Based on Release–Recapture. American Fisheries Society Monograph 5.',
  'Cameron & Trivedi 1998':
    'Cameron, A. C. & Trivedi, P. K. (1998). Regression Analysis of Count Data. Cambridge University Press.',
  'Cook & Jacobson 1979':
    'Cook, R. D. & Jacobson, J. O. (1979). A design for estimating visibility bias in aerial surveys. Biometrics 35: 735–742.',
  'Dunn & Smyth 1996':
    'Dunn, P. K. & Smyth, G. K. (1996). Randomized quantile residuals. Journal of Computational and Graphical Statistics 5: 236–244.',
  'Fewster et al. 2009':
    'Fewster, R. M., Buckland, S. T., Burnham, K. P., Borchers, D. L., Jupp, P. E., Laake, J. L. & Thomas, L. (2009). Estimating the encounter rate variance in distance sampling. Biometrics 65: 225–236.',
  'Hanley & Lippman-Hand 1983':
    'Hanley, J. A. & Lippman-Hand, A. (1983). If nothing goes wrong, is everything all right? Interpreting zero numerators. JAMA 249: 1743–1745.',
  'Hastie et al. 2009':
    'Hastie, T., Tibshirani, R. & Friedman, J. (2009). The Elements of Statistical Learning, 2nd ed. Springer.',
  'Hurvich & Tsai 1989':
    'Hurvich, C. M. & Tsai, C.-L. (1989). Regression and time series model selection in small samples. Biometrika 76: 297–307.',
  'Laake & Borchers 2004':
    'Laake, J. L. & Borchers, D. L. (2004). Methods for incomplete detection at distance zero. In Buckland, S. T. et al. (eds), Advanced Distance Sampling, 108–189. Oxford University Press.',
  'Liu & Pierce 1994':
    'Liu, Q. & Pierce, D. A. (1994). A note on Gauss–Hermite quadrature. Biometrika 81: 624–629.',
  'Moran 1950':
    'Moran, P. A. P. (1950). Notes on continuous stochastic phenomena. Biometrika 37: 17–23.',
  'Nichols et al. 2000':
    'Nichols, J. D., Hines, J. E., Sauer, J. R., Fallon, F. W., Fallon, J. E. & Heglund, P. J. (2000). A double-observer approach for estimating detection probability and abundance from point counts. Auk 117: 393–408.',
} as const;

export type Cited = keyof typeof REFERENCES;

/** Collects what is cited while a text is written: `cite('Moran 1950')` → `(Moran 1950)`. */
export interface Citations {
  cite(...works: Cited[]): string;
  /** entries of all that was cited, by their first author */
  list(): string[];
}

export function citations(): Citations {
  const cited = new Set<Cited>();
  return {
    cite(...works) {
      for (const work of works) cited.add(work);
      return `(${works.join('; ')})`;
    },
    list: () =>
      (Object.keys(REFERENCES) as Cited[])
        .filter((work) => cited.has(work))
        .map((w) => REFERENCES[w]),
  };
}
