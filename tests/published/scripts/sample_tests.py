"""Tails of chi-square, tests of normality by skewness and kurtosis, normal deciles: scipy 1.10.1.

For tests/models/diagnose/verdicts and tests/models/random. Writes ../data/sample_tests.json. Run: /usr/bin/python3 sample_tests.py
"""

import json
import pathlib

import scipy
from scipy import stats

SAMPLES = [
    [0.3, -1.2, 0.8, 2.1, -0.4, 0.05, 1.3, -0.7, -1.9, 0.6, 0.2, -0.1, 3.4, -0.9, 1.1, 0.4, -0.3, 0.9, -1.4, 0.7, 0.1, 2.6, -0.2, 0.5, -0.6],
    [-3, *range(2, 31)],
]


def normality(values):
    k2, p = stats.normaltest(values)
    return {"values": values, "skewness": float(stats.skew(values)), "kurtosis": float(stats.kurtosis(values, fisher=False)), "k2": float(k2), "p": float(p)}


tails = [(3.841458820694124, 1), (0.5, 1), (10, 3), (25, 10), (60, 10), (2, 7), (120, 100)]
out = {
    "made_with": {"scipy": scipy.__version__},
    "chi_square_tail": [[x, df, float(stats.chi2.sf(x, df))] for x, df in tails],
    "normal_deciles": [float(stats.norm.ppf(k / 10)) for k in range(1, 10)],
    "normality": [normality(values) for values in SAMPLES],
}
path = pathlib.Path(__file__).parent / "../data/sample_tests.json"
path.write_text(json.dumps(out, indent=1) + "\n")
