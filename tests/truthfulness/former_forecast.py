"""The forecast told before stages counted, frozen as a reference: age and likeness alone."""

import numpy as np

ENOUGH = 20
STEPS = ((0, 1, 2), (0, 1), (0,), (3,), ())
"""Columns of `likeness` that are equal, from near to far: department, kind, scan method; plan."""


def former_chances(likeness, waits, finished, rows, ages, by):
    """Return 1 − S(by) / S(age) of Kaplan-Meier among like orders that had waited longer.

    Args:
        likeness: Department, kind, scan method and plan of each order, as numbers.
        waits: How long each took, or has waited, in minutes.
        finished: Whether it was fitted.
        rows: The orders that wait; `ages` and `by` are theirs, in minutes since the request.
    """
    return np.array([
        _chance(likeness, waits, finished, row, age, until)
        for row, age, until in zip(rows, ages, by, strict=True)
    ])  # fmt: skip


def _chance(likeness, waits, finished, row, age, by):
    for keys in STEPS:
        alike = (likeness[:, keys] == likeness[row, keys]).all(axis=1) & (waits > age)
        if alike.sum() >= ENOUGH or not keys:
            break
    if not alike.any():
        return np.nan
    times = np.unique(waits[alike & finished & (waits <= by)])
    at_risk = (waits[alike] >= times[:, None]).sum(axis=1)
    done = (waits[alike & finished] == times[:, None]).sum(axis=1)
    return 1 - np.prod(1 - done / at_risk)
