"""Negative binomial regressions with the standard errors of all parameters together: statsmodels 0.13.5.

For tests/published/count-regression and counts-by-substrate. statsmodels' alpha is 1/theta of nb2 and phi of nb1.
Writes ../data/regressions_observed.json. Run: /usr/bin/python3 regressions.py
"""

import csv
import json
import pathlib

import numpy as np
import statsmodels
import statsmodels.api as sm

DATA = pathlib.Path(__file__).parent / "../data"


def read(name):
    with open(DATA / f"{name}.csv", newline="") as f:
        return list(csv.DictReader(f))


def dummies(rows, column, levels):
    return {level: [float(r[column] == level) for r in rows] for level in levels}


def fit(counts, columns, family):
    names = ["intercept", *columns]
    x = np.column_stack([np.ones(len(counts)), *columns.values()])
    # columns of like length, so that the search is well scaled
    scale = np.sqrt((x**2).mean(axis=0))
    model = sm.NegativeBinomial(np.array(counts), x / scale, loglike_method=family)
    found = model.fit(method="bfgs", maxiter=2000, gtol=1e-6, disp=0)
    found = model.fit(start_params=found.params, method="newton", maxiter=100, tol=1e-13, disp=0)
    assert found.mle_retvals["converged"] and np.abs(model.score(found.params)).max() < 1e-6
    estimate = found.params[:-1] / scale
    alpha, se_alpha = found.params[-1], found.bse[-1]
    dispersion = ("log_theta", -np.log(alpha)) if family == "nb2" else ("log_phi", np.log(alpha))
    terms = {n: [float(a), float(b)] for n, a, b in zip(names, estimate, found.bse[:-1] / scale)}
    terms[dispersion[0]] = [float(dispersion[1]), float(se_alpha / alpha)]
    return {"terms": terms, "logLik": float(found.llf)}


quine = read("quine")
pupils = {}
for column, levels in (("Eth", ["N"]), ("Sex", ["M"]), ("Age", ["F1", "F2", "F3"]), ("Lrn", ["SL"])):
    pupils.update({column + level: x for level, x in dummies(quine, column, levels).items()})
days = [int(r["Days"]) for r in quine]

mite = read("mite_small")
places = dummies(mite, "Sub2", ["Interface", "Other"])
for column in ("SubsDens", "WatrCont"):
    places[column] = [float(r[column]) for r in mite]
mites = [int(r["ONOV"]) for r in mite]

out = {
    "made_with": {"statsmodels": statsmodels.__version__, "numpy": np.__version__},
    "quine": {family: fit(days, pupils, family) for family in ("nb2", "nb1")},
    "mite": {family: fit(mites, places, family) for family in ("nb2", "nb1")},
}
(DATA / "regressions_observed.json").write_text(json.dumps(out, indent=1) + "\n")
