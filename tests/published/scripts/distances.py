"""Perpendicular distances: scipy 1.10.1 and numpy. For tests/published/distance. Writes ../data/distances.json.

The 18 birds along 100 m of Thompson (Sampling, ch. 17): log-likelihood of a half-normal or a hazard-rate truncated at w,
maximised over log sigma (and log b), its integral by quad; second derivatives by differences. Estimator R2 of the variance
of an encounter rate (Fewster et al. 2009) over six belts. Run: /usr/bin/python3 distances.py
"""

import json
import pathlib

import numpy as np
import scipy
from scipy.integrate import quad
from scipy.optimize import minimize, minimize_scalar

BIRDS = np.array([0, 0, 1, 3, 7, 11, 11, 12, 15, 15, 18, 19, 21, 23, 28, 33, 34, 44], dtype=float)
LENGTH = 100.0


def half_normal(y, sigma):
    return np.exp(-(y**2) / (2 * sigma**2))


def hazard_rate(y, sigma, b):
    y = np.maximum(y, 1e-12)
    return -np.expm1(-((y / sigma) ** -b))


def width(g, w):
    return quad(g, 0, w, epsabs=1e-13, epsrel=1e-13, limit=400, points=[p for p in (5, 15, 25, 40, 80, 200) if p < w])[0]


def figures(n, mu, log_lik, **more):
    return {"n": n, "mu": float(mu), "logLik": float(log_lik), "density": n / (2 * LENGTH * float(mu)), **more}


def fit_half_normal(w):
    seen = BIRDS[BIRDS <= w]

    def log_lik(log_sigma):
        s = np.exp(log_sigma)
        return np.log(half_normal(seen, s)).sum() - len(seen) * np.log(width(lambda y: half_normal(y, s), w))

    x = minimize_scalar(lambda t: -log_lik(t), bounds=(1, 6), method="bounded", options={"xatol": 1e-10}).x
    h = 1e-3
    for _ in range(3):
        slope = (log_lik(x - 2 * h) - 8 * log_lik(x - h) + 8 * log_lik(x + h) - log_lik(x + 2 * h)) / (12 * h)
        bend = (-log_lik(x - 2 * h) + 16 * log_lik(x - h) - 30 * log_lik(x) + 16 * log_lik(x + h) - log_lik(x + 2 * h)) / (12 * h**2)
        x -= slope / bend
    mu = lambda t: width(lambda y: half_normal(y, np.exp(t)), w)
    se = 1 / np.sqrt(-bend)
    cv = se * (mu(x - 2 * h) - 8 * mu(x - h) + 8 * mu(x + h) - mu(x + 2 * h)) / (12 * h) / mu(x)
    return figures(len(seen), mu(x), log_lik(x), w=w, sigma=float(np.exp(x)), se_log_sigma=float(se), cv_mu=float(cv))


def fit_hazard_rate(w):
    seen = BIRDS[BIRDS <= w]

    def log_lik(t):
        s, b = np.exp(t)
        return np.log(hazard_rate(seen, s, b)).sum() - len(seen) * np.log(width(lambda y: hazard_rate(y, s, b), w))

    t = minimize(lambda t: -log_lik(t), [np.log(20), 1], method="Nelder-Mead", options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 5000}).x
    s, b = np.exp(t)
    return figures(len(seen), width(lambda y: hazard_rate(y, s, b), w), log_lik(t), w=w, sigma=float(s), b=float(b))


def encounter_rate(found, effort):
    found, effort = np.array(found, dtype=float), np.array(effort, dtype=float)
    k, total = len(found), effort.sum()
    rate = found.sum() / total
    variance = k / (total**2 * (k - 1)) * (effort**2 * (found / effort - rate) ** 2).sum()
    return {"rate": float(rate), "se": float(np.sqrt(variance))}


out = {
    "made_with": {"scipy": scipy.__version__, "numpy": np.__version__},
    "half_normal": [fit_half_normal(w) for w in (50, 44, 30)],
    "hazard_rate": fit_hazard_rate(50),
    "belts": encounter_rate([5, 0, 12, 3, 7, 1], [30, 30, 25, 28, 30, 20]),
}
path = pathlib.Path(__file__).parent / "../data/distances.json"
path.write_text(json.dumps(out, indent=1) + "\n")
