"""Reference values of special functions and distributions: scipy 1.10.1 (Debian 12), mpmath 1.2.1 where marked.

Writes ../data/special_functions.json. Run: /usr/bin/python3 special_functions.py
"""

import json
import pathlib

import mpmath
import scipy
from scipy import special, stats

mpmath.mp.dps = 40


def student_quantile(p, df):
    """Root of the distribution function, started from scipy's value."""
    if p == 0.5:
        return 0.0
    tail = min(p, 1 - p)
    t = abs(float(stats.t.ppf(p, df)))
    root = mpmath.findroot(lambda t: mpmath.betainc(mpmath.mpf(df) / 2, 0.5, 0, df / (df + t * t), regularized=True) / 2 - mpmath.mpf(tail), t)
    return float(root) * (1 if p > 0.5 else -1)


xs = [1e-8, 1e-3, 0.1, 0.5, 1, 1.5, 2, 3.7, 7, 11.999, 12, 25.5, 171, 1e4, 1e9]
erfs = [0, 1e-10, 0.01, 0.3, 0.5, 1, 1.9, 2.49, 2.51, 3.5, 6, 10, 26]
out = {
    "made_with": {"scipy": scipy.__version__, "mpmath": mpmath.__version__},
    "logGamma": [[x, float(mpmath.loggamma(x))] for x in xs],
    "digamma": [[x, float(mpmath.digamma(x))] for x in xs],
    "trigamma": [[x, float(mpmath.polygamma(1, x))] for x in xs],
    "erf": [[x, float(mpmath.erf(x))] for x in erfs],
    "erfc": [[x, float(mpmath.erfc(x))] for x in erfs + [-0.5, -3]],
    "normalCdf": [[z, float(stats.norm.cdf(z))] for z in [-30, -8, -3.5, -1.96, -0.5, 0, 0.1, 1, 2.5, 6]],
    "normalQuantile": [[p, float(stats.norm.ppf(p))] for p in [1e-300, 1e-20, 1e-6, 0.005, 0.025, 0.1, 0.4, 0.5, 0.75, 0.95, 0.975, 0.999999]],
    "studentCdf": [[t, df, float(stats.t.cdf(t, df))] for t in [-4, -1, 0, 0.3, 2.1, 12] for df in [1, 2.5, 9, 39, 400]],
    # scipy's t.ppf keeps 8 digits only at df = 2; its exact form there is (2p - 1) / sqrt(2p(1 - p))
    "studentQuantile": [[p, df, student_quantile(p, df)] for p in [0.01, 0.4, 0.5, 0.8, 0.95, 0.975, 0.9995] for df in [1, 2, 3, 10, 14, 47, 1000]],
    "incompleteBeta": [[x, a, b, float(special.betainc(a, b, x))] for x in [0.001, 0.2, 0.5, 0.77, 0.999] for (a, b) in [(0.5, 0.5), (1, 3), (2.5, 0.7), (12, 30), (400, 250), (0.01, 5)]],
    "poissonCdf": [[n, m, float(stats.poisson.cdf(n, m))] for n in [0, 1, 4, 20, 150] for m in [1e-6, 0.3, 2, 17.5, 120]],
    # size r and mean m: scipy's p is r / (r + m)
    "negativeBinomialCdf": [[n, m, r, float(stats.nbinom.cdf(n, r, r / (r + m)))] for n in [0, 1, 5, 40] for m in [0.05, 1.3, 12] for r in [0.02, 1, 7.5, 1e4]],
}
path = pathlib.Path(__file__).parent / "../data/special_functions.json"
path.write_text(json.dumps(out, indent=1) + "\n")
