#!/usr/bin/python3
"""Second opinions for tests of agreement and phases, on stored random inputs.

Regenerate with Debian 12's own packages:
    apt-get install python3-scipy python3-statsmodels
    /usr/bin/python3 scripts/reference/phases.py > tests/reference/data/phases.json

What comes from where:
  kappa and its errors      statsmodels.stats.inter_rater.cohens_kappa
  exact McNemar             statsmodels.stats.contingency_tables.mcnemar
  NAP                       scipy.stats.mannwhitneyu, U / (m n)
  tau-b, trend probability  scipy.stats.kendalltau
  baseline slope            scipy.stats.theilslopes
  dual criterion            numpy.polyfit, scipy.stats.binom
  NAP interval              scipy.optimize.brentq on the interval's defining equation
  log odds ratio            delta method by scipy.optimize.approx_fprime on logit(mean)
  randomization test        numpy, every permitted start in turn
"""

import json
import platform
import warnings

import numpy as np
import scipy
import statsmodels
from scipy import optimize, stats
from statsmodels.stats.contingency_tables import mcnemar
from statsmodels.stats.inter_rater import cohens_kappa

SEED = 20261125
rng = np.random.default_rng(SEED)
warnings.simplefilter("ignore", RuntimeWarning)


def kappa_case():
    size = int(rng.integers(2, 5))
    table = rng.integers(1, 40, (size, size)) + np.diag(rng.integers(0, 60, size))
    result = cohens_kappa(table)
    return {
        "table": table.tolist(),
        "kappa": result.kappa,
        "standardError": result.std_kappa,
        "standardErrorUnderZero": result.std_kappa0,
        "greatestPossible": result.kappa_max,
    }


def mcnemar_case():
    b, c = (int(x) for x in rng.integers(0, 60, 2))
    return {"b": b, "c": c, "p": float(mcnemar([[5, b], [c, 5]], exact=True).pvalue)}


def nap_limits(value, m, n):
    """Values exactly 1.959964 standard errors away, Newcombe's method 5 variance."""
    z = stats.norm.ppf(0.975)

    def variance(t):
        half = (m + n) / 2 - 1
        return t * (1 - t) / (m * n) * (1 + half * ((1 - t) / (2 - t) + t / (1 + t)))

    def upper(estimate):
        gap = lambda t: (t - estimate) - z * np.sqrt(variance(t))
        return 1.0 if estimate >= 1 else optimize.brentq(gap, estimate + 1e-9, 1, xtol=1e-14)

    return [1 - upper(1 - value), upper(value)]


def log_odds(a, b):
    def difference(means):
        return np.log(means[1] / (1 - means[1])) - np.log(means[0] / (1 - means[0]))

    means = np.array([a.mean(), b.mean()])
    slope = optimize.approx_fprime(means, difference, 1e-7)
    errors = np.array([a.var(ddof=1) / len(a), b.var(ddof=1) / len(b)])
    return float(difference(means)), float(np.sqrt((slope**2 * errors).sum()))


def dual(a, b, shift):
    slope, intercept = np.polyfit(np.arange(1, len(a) + 1), a, 1)
    times = np.arange(len(a) + 1, len(a) + len(b) + 1)
    lines = np.maximum(a.mean(), intercept + slope * times) + shift
    # Left out of the comparison when a point lies on a line, where rounding would decide.
    return int((b > lines).sum()), bool(np.abs(b - lines).min() > 1e-9)


def least_count(n):
    counts = [k for k in range(n + 1) if stats.binom.sf(k - 1, n, 0.5) <= 0.05]
    return counts[0] if counts else None


def phase_case(ties):
    m, n = int(rng.integers(4, 11)), int(rng.integers(3, 16))
    drift = rng.choice([0, 0, 0.03, 0.06])
    a = 0.35 + drift * np.arange(m) + rng.normal(0, 0.06, m)
    b = 0.5 + rng.choice([0, 0.1, 0.2]) + rng.normal(0, 0.08, n)
    a, b = (np.clip(x, 0.02, 0.98).round(1 if ties else 6) for x in (a, b))

    times = np.arange(1, m + 1)
    tied = len(set(a)) < m
    trend = None if tied else float(stats.kendalltau(times, a, method="exact").pvalue)
    slope = float(stats.theilslopes(a, times)[0])
    code = np.repeat([0, 1], [m, n])
    everything = np.concatenate([a, b])
    residuals = (everything - slope * np.arange(1, m + n + 1)).round(9)

    value = stats.mannwhitneyu(b, a, alternative="two-sided").statistic / (m * n)
    lor, error = log_odds(a, b)
    counted, clear = dual(a, b, 0)
    strict, strictly_clear = dual(a, b, 0.25 * a.std(ddof=1))
    return {
        "a": a.tolist(),
        "b": b.tolist(),
        "nap": float(value),
        "napInterval": [float(x) for x in nap_limits(value, m, n)],
        "pnd": float((b > a.max()).mean()),
        "logOddsRatio": lor,
        "logOddsError": error,
        "trendProbability": trend,
        "slope": slope,
        "rawTauB": float(stats.kendalltau(code, everything).statistic),
        "correctedTauB": float(stats.kendalltau(code, residuals).statistic),
        "dualAbove": counted if clear else None,
        "conservativeAbove": strict if strictly_clear else None,
        "needed": least_count(n),
    }


def randomization_case():
    days = np.sort(rng.choice(40, int(rng.integers(12, 25)), replace=False))
    values = rng.random(len(days)).round(6)
    permitted = np.sort(rng.choice(np.arange(days[2], days[-3]), 7, replace=False))
    start = int(rng.choice(permitted))
    values = np.where(days >= start, np.minimum(1, values + rng.choice([0, 0.3])), values)
    split = lambda day: values[days >= day].mean() - values[days < day].mean()
    every = np.array([split(day) for day in permitted])
    seen = split(start)
    return {
        "days": days.tolist(),
        "values": values.tolist(),
        "permitted": permitted.tolist(),
        "start": start,
        "difference": float(seen),
        "probability": float((every >= seen - 1e-12).mean()),
        "twoSidedProbability": float((np.abs(every) >= abs(seen) - 1e-12).mean()),
    }


print(
    json.dumps(
        {
            "source": "scripts/reference/phases.py",
            "versions": {
                "python": platform.python_version(),
                "numpy": np.__version__,
                "scipy": scipy.__version__,
                "statsmodels": statsmodels.__version__,
            },
            "seed": SEED,
            "kappa": [kappa_case() for _ in range(40)],
            "mcnemar": [mcnemar_case() for _ in range(40)],
            "phases": [phase_case(i % 2 == 1) for i in range(60)],
            "randomization": [randomization_case() for _ in range(30)],
            "fairCoin": [
                {"tosses": n, "heads": k, "p": float(stats.binom.sf(k - 1, n, 0.5))}
                for n, k in [(5, 5), (30, 20), (200, 90), (2000, 1040), (20000, 10300), (5000, 3100)]
            ],
        },
        indent=1,
    )
)
