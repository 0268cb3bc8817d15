"""Means of the hazard-rate g(y) = 1 - exp(-(y/s)^-b) and of g^2 over offsets from 0 to w: mpmath 1.2.1, 30 digits.

The mean of g by the closed form with the upper incomplete gamma function where b > 1 (and by numerical integration,
which must agree), else by integration; the mean of g^2 by integration. Writes ../data/hazard_means.json.
"""

import json
import pathlib

import mpmath as mp

mp.mp.dps = 30


def integral(f, s, w):
    cuts = [mp.mpf(c) * s for c in (0.25, 0.5, 0.7, 0.8, 0.9, 0.95, 1, 1.05, 1.1, 1.25, 1.5, 2, 4, 8, 16, 32, 64, 128, 512)]
    return mp.quad(f, [0] + [c for c in cuts if c < w] + [w])


def row(s, b, w):
    s, b, w = mp.mpf(s), mp.mpf(b), mp.mpf(w)
    g = lambda y: mp.mpf(1) if y == 0 else -mp.expm1(-((y / s) ** -b))
    mean = integral(g, s, w) / w
    if b > 1:
        t = (w / s) ** -b
        closed = (w * -mp.expm1(-t) + s * mp.gammainc(1 - 1 / b, t)) / w
        assert abs(closed - mean) < mp.mpf(10) ** -14, (s, b, w, closed, mean)
        mean = closed
    square = integral(lambda y: g(y) ** 2, s, w) / w
    return [float(s), float(b), float(w), float(mean), float(square)]


rows = [row(s, b, 1) for s in ("0.003", "0.05", "0.3", "0.49", "0.9", "1.02", "3", "40") for b in ("0.5", "0.8", "1.2", "2", "3.5", "9", "30", "80")]
rows += [row("10", "3", "20"), row("0.5", "4", "0.75"), row("0.7", "2.5", "1.25")]
path = pathlib.Path(__file__).parent / "../data/hazard_means.json"
path.write_text(json.dumps({"made_with": {"mpmath": mp.__version__}, "columns": ["s", "b", "w", "mean_g", "mean_g_squared"], "rows": rows}, indent=1) + "\n")
