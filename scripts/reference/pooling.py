#!/usr/bin/python3
"""Second opinions on pooled sessions: the design effect, and rates of kinds drawn together.

Regenerate with Debian 12's own packages:
    apt-get install python3-numpy python3-statsmodels
    /usr/bin/python3 scripts/reference/pooling.py > tests/reference/data/pooling.json

What comes from where:
  design effect        statsmodels.GEE, binomial, intercept only, independent working correlation, mark
                       by mark: sandwich over model variance, times k/(k-1) for k sessions
  variance between     statsmodels combine_effects(method_re="chi2"), DerSimonian and Laird's moments
  and its mean
  shrunk rates, errors Henderson's mixed-model equations solved by numpy: a matrix, where the project
                       weighs each kind by itself
"""

import json
import platform

import numpy as np
import statsmodels
import statsmodels.api as sm
from statsmodels.stats.meta_analysis import combine_effects

SEED = 20261127
rng = np.random.default_rng(SEED)

# Litters of Weil (1970), as in Williams DA (1975) Biometrics 31:949-952: pups alive at 4 days, and of
# these at 21. The clustered counts on which Rao and Scott (1992) show their method.
WEIL = {
    "control": ([13, 12, 9, 9, 8, 8, 12, 11, 9, 9, 8, 11, 4, 5, 7, 7],
                [13, 12, 9, 9, 8, 8, 13, 12, 10, 10, 9, 13, 5, 7, 10, 10]),
    "treated": ([12, 11, 10, 9, 10, 9, 9, 8, 8, 4, 7, 4, 5, 3, 3, 0],
                [12, 11, 10, 9, 11, 10, 10, 9, 9, 5, 9, 7, 10, 6, 10, 7]),
}


def effect_of(on, total):
    on, total = np.asarray(on), np.asarray(total)
    marks = np.concatenate([[1] * a + [0] * (n - a) for a, n in zip(on, total)])
    session = np.repeat(np.arange(len(on)), total)
    fit = sm.GEE(marks, np.ones((len(marks), 1)), groups=session,
                 family=sm.families.Binomial()).fit(scale=1.0)
    k = len(on)
    return float(fit.cov_robust[0, 0] / fit.cov_naive[0, 0] * k / (k - 1))


def draw_sessions(rate, spread, count):
    total = rng.integers(4, 21, count)
    chance = np.clip(rng.normal(rate, spread, count), 0.03, 0.97)
    return rng.binomial(total, chance), total


def one_stretch():
    on, total = draw_sessions(rng.uniform(0.3, 0.85), rng.choice([0.02, 0.15, 0.25]),
                              int(rng.integers(3, 15)))
    return {"on": on.tolist(), "total": total.tolist(), "effect": effect_of(on, total)}


def several():
    """One effect for several stretches: each weighs by its binomial variance N p (1-p)."""
    stretches = [one_stretch() for _ in range(int(rng.integers(2, 5)))]
    weights = []
    for stretch in stretches:
        n, p = sum(stretch["total"]), sum(stretch["on"]) / sum(stretch["total"])
        weights.append(n * p * (1 - p))
    effect = np.average([stretch["effect"] for stretch in stretches], weights=weights)
    return {"stretches": stretches, "effect": float(effect)}


def henderson(rates, variances, tau2):
    """Mean and kinds' deviations at once; the inverse holds the errors of mean plus deviation."""
    k = len(rates)
    w = np.diag(1 / variances)
    left = np.zeros((k + 1, k + 1))
    left[0, 0] = w.sum()
    left[0, 1:] = left[1:, 0] = np.diag(w)
    left[1:, 1:] = w + np.eye(k) / tau2
    right = np.concatenate([[(rates / variances).sum()], rates / variances])
    solved, inverse = np.linalg.solve(left, right), np.linalg.inv(left)
    errors = [inverse[0, 0] + 2 * inverse[0, i] + inverse[i, i] for i in range(1, k + 1)]
    return solved[0] + solved[1:], np.sqrt(errors)


def kinds_case():
    count = int(rng.integers(2, 7))
    rates = rng.normal(0.6, rng.choice([0.02, 0.12, 0.2]), count).clip(0.1, 0.9)
    kinds = [draw_sessions(rate, 0.1, int(rng.integers(2, 9))) for rate in rates]
    everything = sum(on.sum() for on, _ in kinds) / sum(total.sum() for _, total in kinds)
    weights = [t.sum() * (o.sum() / t.sum()) * (1 - o.sum() / t.sum()) for o, t in kinds]
    effect = max(1, np.average([effect_of(o, t) for o, t in kinds], weights=weights))
    seen = np.array([o.sum() / t.sum() for o, t in kinds])
    chance = np.array([effect * everything * (1 - everything) / t.sum() for _, t in kinds])
    found = combine_effects(seen, chance, method_re="chi2")
    tau2 = max(0.0, float(found.tau2))
    if tau2 == 0:
        shrunk, errors = np.full(count, found.mean_effect_fe), np.full(count, found.sd_eff_w_fe)
    else:
        shrunk, errors = henderson(seen, chance, tau2)
        assert abs(found.mean_effect_re - np.average(seen, weights=1 / (chance + tau2))) < 1e-12
    return {
        "kinds": [{"on": o.tolist(), "total": t.tolist()} for o, t in kinds],
        "between": float(np.sqrt(tau2)),
        "shrunk": shrunk.tolist(),
        "errors": np.asarray(errors).tolist(),
    }


print(
    json.dumps(
        {
            "source": f"statsmodels {statsmodels.__version__}, NumPy {np.__version__}, "
            f"Python {platform.python_version()}",
            "seed": SEED,
            "weil": {name: {"on": on, "total": total, "effect": effect_of(on, total)}
                     for name, (on, total) in WEIL.items()},
            "stretches": [one_stretch() for _ in range(30)],
            "several": [several() for _ in range(10)],
            "kinds": [kinds_case() for _ in range(30)],
        }
    )
)
