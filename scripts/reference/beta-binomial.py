#!/usr/bin/python3
"""Beta-binomial chances, means and variances from SciPy on stored inputs.

Regenerate (any SciPy with scipy.stats.betabinom; the stored file names the version):
    python3 scripts/reference/beta-binomial.py > tests/reference/data/beta-binomial.json

alpha = q (1 - rho) / rho, beta = (1 - q)(1 - rho) / rho; rho = 0 is scipy.stats.binom.
"""

import json
import platform

import numpy as np
import scipy
from scipy import stats

SEED = 20261128
rng = np.random.default_rng(SEED)


def case(n, q, rho):
    if rho == 0:
        law = stats.binom(n, q)
    else:
        law = stats.betabinom(n, q * (1 - rho) / rho, (1 - q) * (1 - rho) / rho)
    return {
        "n": n,
        "q": q,
        "rho": rho,
        "mean": float(law.mean()),
        "variance": float(law.var()),
        "chances": [float(x) for x in law.pmf(np.arange(n + 1))],
    }


fixed = [(10, 0.76, 0.0678), (10, 0.45, 0.0), (1, 0.3, 0.2), (40, 0.95, 0.5), (120, 0.02, 0.01)]
drawn = [
    (int(rng.integers(1, 60)), round(float(rng.uniform(0.02, 0.98)), 4), round(float(rng.uniform(0, 0.5)), 4))
    for _ in range(20)
]
print(
    json.dumps(
        {
            "source": f"scipy {scipy.__version__}, numpy {np.__version__}, Python {platform.python_version()}",
            "seed": SEED,
            "cases": [case(*each) for each in fixed + drawn],
        },
        indent=1,
    )
)
