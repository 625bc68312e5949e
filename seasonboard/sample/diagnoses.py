"""What an injury is: tissue, pathology, onset, mechanism and days lost, by body area."""

import numpy as np
import polars as pl

from seasonboard.sample.data_files import toml_file
from seasonboard.sample.draws import Draws, Ints
from seasonboard.sample.truth import AREAS, truth

GRADUAL = "repetitive gradual"

_FILE = toml_file("diagnoses")
_COMMON = [_FILE["common"][area] for area in AREAS]
DIAGNOSES = pl.DataFrame([_FILE["diagnoses"][name] for weights in _COMMON for name in weights])
_STEPS = np.cumsum(  # each area spans one unit
    np.concatenate([np.array([*w.values()]) / sum(w.values()) for w in _COMMON])
)


def diagnose(area: Ints, draws: Draws) -> tuple[Ints, Ints]:
    """A diagnosis (position in DIAGNOSES) and days lost for each area (position in AREAS)."""
    count = len(area)
    rows = np.searchsorted(_STEPS, area + draws.uniform(count) * 0.999_999, side="right")
    rows = np.minimum(rows, len(DIAGNOSES) - 1).astype(np.int64)
    median = DIAGNOSES["days"].to_numpy()[rows]
    lost = 1 + np.floor(draws.skewed(count, median - 0.5, shape=2.0)).astype(np.int64)
    none = draws.chance(count, truth().zero_day_share)
    return rows, np.where(none, 0, np.minimum(lost, 240))
