"""Reference values for the trend statistics, from SciPy on stored random inputs.

Regenerate: python3 scripts/reference/trend.py > tests/reference/data/trend-scipy.json
Needs: numpy, scipy.
"""

import json
from importlib.metadata import version

import numpy as np
from scipy import stats

SEED = 20240917
draw = np.random.default_rng(SEED)


def theil(n, kind):
    if kind == "plain":
        x, y = np.arange(n), draw.normal(size=n) + np.arange(n) * draw.normal() / n
    elif kind == "tied values":
        x, y = np.arange(n) * 2, draw.integers(0, 11, n) / 10
    else:  # uneven days, no two alike
        x, y = np.sort(draw.choice(10 * n, n, replace=False)), draw.integers(0, 9, n) / 8
    fit = stats.theilslopes(y, x, alpha=0.95)
    return {
        "kind": kind,
        "x": x.tolist(),
        "y": y.tolist(),
        "slope": fit.slope,
        "intercept": fit.intercept,
        "lower": fit.low_slope,
        "upper": fit.high_slope,
    }


def tau(n):
    x = np.sort(draw.integers(0, n, n))
    y = draw.integers(0, 6, n)
    found = stats.kendalltau(x, y, method="asymptotic")
    return {"x": x.tolist(), "y": y.tolist(), "tau": found.statistic}


kinds = ["plain", "tied values", "uneven days"]
result = {
    "source": f"SciPy {version('scipy')}, NumPy {version('numpy')}",
    "seed": SEED,
    "theil": [theil(int(draw.integers(5, 120)), kinds[i % 3]) for i in range(45)],
    "tau": [tau(int(draw.integers(6, 60))) for _ in range(20)],
}
print(json.dumps(result))
