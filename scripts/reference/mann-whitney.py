#!/usr/bin/python3
"""Mann-Whitney p values, two-sided, from SciPy on stored random inputs.

Regenerate with Debian 12's own packages:
    apt-get install python3-scipy
    /usr/bin/python3 scripts/reference/mann-whitney.py > tests/reference/data/mann-whitney.json

Without ties: scipy.stats.mannwhitneyu, method="exact". With ties that method does not hold, so every
way to deal the points out is tried: scipy.stats.permutation_test with the statistic U and all
partitions. Large: scipy.stats.mannwhitneyu, method="asymptotic", continuity corrected.
"""

import json
import platform
from math import comb

import numpy as np
import scipy
from scipy import stats

SEED = 20261126
rng = np.random.default_rng(SEED)


def u_of(b, a):
    return float((b[:, None] > a[None, :]).sum() + (b[:, None] == a[None, :]).sum() / 2)


def case(p, a, b):
    return {"a": a.tolist(), "b": b.tolist(), "u": u_of(b, a), "p": float(p)}


def untied():
    m, n = (int(x) for x in rng.integers(1, 16, 2))
    a, b = rng.random(m).round(6), (rng.random(n) + rng.choice([0, 0.2, 0.5])).round(6)
    return case(stats.mannwhitneyu(b, a, alternative="two-sided", method="exact").pvalue, a, b)


def tied():
    m, n = (int(x) for x in rng.integers(2, 8, 2))
    a = rng.integers(0, 9, m) / 8
    b = np.minimum(8, rng.integers(0, 9, n) + rng.choice([0, 3, 5])) / 8
    found = stats.permutation_test(
        (b, a), u_of, permutation_type="independent", alternative="two-sided", n_resamples=np.inf
    )
    assert len(found.null_distribution) == comb(m + n, m)
    return case(found.pvalue, a, b)


def large(ties):
    m, n = (int(x) for x in rng.integers(31, 80, 2))
    a, b = rng.random(m), np.clip(rng.random(n) + rng.choice([0, 0.1, 0.2]), 0, 1)
    a, b = (x.round(1 if ties else 6) for x in (a, b))
    return case(stats.mannwhitneyu(b, a, alternative="two-sided", method="asymptotic").pvalue, a, b)


print(
    json.dumps(
        {
            "source": f"SciPy {scipy.__version__}, NumPy {np.__version__}, "
            f"Python {platform.python_version()}",
            "seed": SEED,
            "untied": [untied() for _ in range(60)],
            "tied": [tied() for _ in range(40)],
            "large": [large(i % 2 == 1) for i in range(20)],
        }
    )
)
