"""Declination by the World Magnetic Model at a few lakes: the spherical harmonic sum written down anew with mpmath 1.2.1.

Schmidt semi-normalised Legendre functions to degree 12 in geocentric coordinates, turned to geodetic ones (report of the
model, section 1). Coefficients of WMM2025 as npm geomagnetism carries them. For tests/published/declination.
Writes ../data/declination.json. Run: /usr/bin/python3 declination.py
"""

import json
import pathlib

import mpmath as mp

mp.mp.dps = 30
HERE = pathlib.Path(__file__).parent
MODEL = json.loads((HERE / "../../../node_modules/geomagnetism/data/wmm-2025.json").read_text())
RADIUS_KM = mp.mpf("6371.2")
A_KM, INVERSE_FLATTENING = mp.mpf("6378.137"), mp.mpf("298.257223563")


def coefficient(kind, n, m, years):
    k = n * (n + 1) // 2 + m
    at = lambda name: mp.mpf(str((MODEL[name][k] if k < len(MODEL[name]) else 0) or 0))
    return at(f"main_field_coeff_{kind}") + years * at(f"secular_var_coeff_{kind}")


def legendre(n, m, x):
    """Schmidt semi-normalised P_n^m(x), without the sign (-1)^m, by its derivative formula for m and recursion for n."""
    p = mp.mpf(1)
    for k in range(1, m + 1):
        p *= (2 * k - 1) * mp.sqrt(1 - x * x)
    before = mp.mpf(0)
    for k in range(m + 1, n + 1):
        before, p = p, ((2 * k - 1) * x * p - (k + m - 1) * before) / (k - m)
    return p * (mp.sqrt(2 * mp.factorial(n - m) / mp.factorial(n + m)) if m else 1)


def declination(lat, lon, height_km, year):
    phi, lam, h = mp.radians(mp.mpf(lat)), mp.radians(mp.mpf(lon)), mp.mpf(height_km)
    f = 1 / INVERSE_FLATTENING
    e2 = f * (2 - f)
    curvature = A_KM / mp.sqrt(1 - e2 * mp.sin(phi) ** 2)
    across, up = (curvature + h) * mp.cos(phi), (curvature * (1 - e2) + h) * mp.sin(phi)
    r = mp.sqrt(across**2 + up**2)
    geocentric = mp.asin(up / r)
    # north is minus the derivative of the potential by colatitude, taken numerically at 30 digits
    def potential(latitude, longitude, radius):
        total = mp.mpf(0)
        for n in range(1, 13):
            for m in range(n + 1):
                g, k = (coefficient(kind, n, m, mp.mpf(year) - 2025) for kind in "gh")
                total += (RADIUS_KM / radius) ** (n + 1) * (g * mp.cos(m * longitude) + k * mp.sin(m * longitude)) * legendre(n, m, mp.sin(latitude))
        return RADIUS_KM * total

    x = -mp.diff(lambda t: potential(t, lam, r), geocentric) / r
    y = -mp.diff(lambda t: potential(geocentric, t, r), lam) / (r * mp.cos(geocentric))
    z = mp.diff(lambda t: potential(geocentric, lam, t), r)
    north = x * mp.cos(geocentric - phi) - z * mp.sin(geocentric - phi)
    return float(mp.degrees(mp.atan2(y, north)))


LAKES = [
    ("2025.5", "47.6", "9.4", "0.395"),
    ("2026.5", "47.6", "9.4", "0.395"),
    ("2026.5", "44.93", "-93.57", "0.283"),
    ("2026.5", "44.476", "-73.25", "0.029"),
    ("2026.5", "-38.8", "175.9", "0.357"),
    ("2026.5", "33.85", "-96.65", "0.188"),
]
rows = [[float(year), float(lat), float(lon), float(km), declination(lat, lon, km, year)] for year, lat, lon, km in LAKES]
out = {"made_with": {"mpmath": mp.__version__}, "columns": ["year", "lat", "lon", "km", "declination_deg"], "rows": rows}
(HERE / "../data/declination.json").write_text(json.dumps(out, indent=1) + "\n")
