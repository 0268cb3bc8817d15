"""Count models for which no library at hand gives the figure that we compare: scipy 1.10.1 and numpy.

mite: the total over three areas of the nb2 model of ONOV with its delta-method error from the *observed* information of
  all parameters (MASS glm.nb holds theta and takes the expected one).
salamanders: random intercept by site, its integral by the trapezoid rule on 1,601 points over +-9 standard deviations,
  which for a smooth integrand that has died out at the ends is exact to rounding.
Maxima by BFGS and Newton steps on differences; Hessians by central differences of fourth order. Writes ../data/count_models.json.
"""

import csv
import json
import pathlib

import numpy as np
import scipy
from scipy.optimize import minimize
from scipy.special import gammaln, logsumexp

DATA = pathlib.Path(__file__).parent / "../data"


def read(name):
    with open(DATA / name, newline="") as f:
        return list(csv.DictReader(f))


def log_nb(n, mean, size):
    return gammaln(n + size) - gammaln(size) - gammaln(n + 1) + size * np.log(size / (size + mean)) + n * np.log(mean / (size + mean))


def log_pr(family, n, mean, dispersion):
    if family == "poisson":
        return n * np.log(mean) - mean - gammaln(n + 1)
    return log_nb(n, mean, mean / dispersion if family == "nb1" else dispersion)


def differences(f, x, h=2e-3):
    """Gradient and Hessian, fourth order; each parameter is of order 1 (columns are scaled)."""
    steps = ((-2, 1 / 12), (-1, -8 / 12), (1, 8 / 12), (2, -1 / 12))
    gradient = np.array([sum(w * f(x + k * h * e) for k, w in steps) / h for e in np.eye(len(x))])
    hessian = np.zeros((len(x), len(x)))
    for i, a in enumerate(np.eye(len(x))):
        for j, b in enumerate(np.eye(len(x))):
            if j > i:
                continue
            if i == j:
                weights = ((-2, -1 / 12), (-1, 16 / 12), (0, -30 / 12), (1, 16 / 12), (2, -1 / 12))
                hessian[i, i] = sum(w * f(x + k * h * a) for k, w in weights) / h**2
            else:
                hessian[i, j] = hessian[j, i] = sum(v * w * f(x + k * h * a + m * h * b) for k, v in steps for m, w in steps) / h**2
    return gradient, hessian


def climb(f, start):
    x = minimize(lambda p: -f(p), start, method="BFGS", options={"gtol": 1e-6}).x
    for _ in range(4):
        gradient, hessian = differences(f, x)
        x = x - np.linalg.solve(hessian, gradient)
    gradient, hessian = differences(f, x)
    assert np.abs(gradient).max() < 1e-5, gradient
    return x, np.linalg.inv(-hessian)


def mite():
    rows = read("mite_small.csv")
    n = np.array([int(r["ONOV"]) for r in rows])
    # the two measures in tens and hundreds, so that every parameter is of order 1
    x = np.array([[1, r["Sub2"] == "Interface", r["Sub2"] == "Other", float(r["SubsDens"]) / 10, float(r["WatrCont"]) / 100] for r in rows], dtype=float)
    f = lambda p: log_pr("nb2", n, np.exp(x @ p[:5]), np.exp(p[5])).sum()
    p, covariance = climb(f, np.array([4.7, -0.6, -0.7, 0.1, -0.5, 0.5]))
    areas = np.array([100, 50, 25])
    at = np.array([[1, 0, 0, 4, 4], [1, 1, 0, 4, 4], [1, 0, 1, 4, 4]], dtype=float)
    mu = np.exp(at @ p[:5])
    gradient = np.append((areas * mu) @ at, 0)
    return {"mu": mu.tolist(), "total": float(areas @ mu), "se": float(np.sqrt(gradient @ covariance @ gradient)), "logLik": float(f(p))}


def salamanders(family):
    rows = read("salamanders.csv")
    n = np.array([int(r["count"]) for r in rows])
    no = np.array([r["mined"] == "no" for r in rows], dtype=float)
    sites = sorted({r["site"] for r in rows})
    member = np.array([[r["site"] == s for r in rows] for s in sites], dtype=float)
    z = np.linspace(-9, 9, 1601)
    log_weight = -z * z / 2 - np.log(2 * np.pi) / 2 + np.log(z[1] - z[0])

    def f(p):
        mean = np.exp((p[0] + p[1] * no)[:, None] + np.exp(p[2]) * z[None, :])
        dispersion = np.exp(p[3]) if family != "poisson" else None
        return float(logsumexp(member @ log_pr(family, n[:, None], mean, dispersion) + log_weight, axis=1).sum())

    start = {"poisson": [-1.5, 2.2, -0.5], "nb2": [-1.5, 2.2, -0.6, -0.4], "nb1": [-1.1, 1.9, -0.8, 1.0]}[family]
    p, covariance = climb(f, np.array(start))
    names = ["intercept", "no", "log_tau", {"nb1": "log_phi", "nb2": "log_theta"}.get(family)]
    se = np.sqrt(np.diag(covariance))
    return {"logLik": f(p), "terms": {k: [float(a), float(b)] for k, a, b in zip(names, p, se)}}


out = {
    "made_with": {"scipy": scipy.__version__, "numpy": np.__version__},
    "mite_total": mite(),
    "salamanders": {family: salamanders(family) for family in ("poisson", "nb2", "nb1")},
}
(DATA / "count_models.json").write_text(json.dumps(out, indent=1) + "\n")
print(json.dumps(out, indent=1))
