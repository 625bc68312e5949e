"""Invented names: given names and made-up family names combined at random; nobody real is meant."""

import numpy as np
import polars as pl

from seasonboard.sample.draws import Draws, Ints

# By number of the athlete: letters that an intake must keep.
SPECIAL = {7: "Zoë Núñezgaray", 33: "Jørn Ålbækstrand", 61: "月影澪里"}

_GIVEN = (
    (
        "Abrel", "Bastin", "Corvan", "Dariel", "Emeko", "Faroux", "Gethin", "Hirotsu", "Ilyas",
        "Jovik", "Kwasun", "Leando", "Mikkal", "Navesh", "Osmar", "Pavlin", "Quade", "Rafiq",
        "Stellan", "Tomoru", "Udeno", "Vikrel", "Wendo", "Yunseo", "Zoltar", "Tevita", "Arlo",
    ),
    (
        "Amaru", "Brisa", "Calla", "Daniya", "Elspet", "Fumiko", "Greer", "Hanae", "Ingrit",
        "Jamila", "Kezia", "Liorah", "Marit", "Nkechi", "Odalys", "Priyal", "Quilla", "Roswen",
        "Sunniva", "Tamsin", "Ulani", "Veska", "Wrenna", "Xiadani", "Yusra", "Zofka", "Mehret",
    ),
)  # fmt: skip
_FAMILY = (
    (("Oku", "Ade", "Nwa", "Chi"), ("wendu", "bayori", "kemba", "zuora")),
    (("Vash", "Doro", "Mele", "Krup"), ("lenko", "witzel", "dinic", "chukar")),
    (("Fjell", "Lind", "Hol", "Strand"), ("grenquist", "vikstad", "bergaard", "enlund")),
    (("Tsuki", "Haya", "Mori", "Kita"), ("hara", "shino", "numa", "bata")),
    (("Bel", "Mira", "Cas", "Val"), ("montero", "daraz", "tilvera", "quendo")),
    (("Sar", "Ven", "Raj", "Mukh"), ("kamani", "dranath", "pillay", "avarti")),
    (("Faka", "Tau", "Lele", "Mano"), ("laki", "moala", "hanga", "tavake")),
    (("Marro", "Thistle", "Penn", "Hather"), ("wick", "combe", "stock", "leigh")),
    (("Bou", "Haj", "Zer", "Ram"), ("dallah", "ouadi", "zaari", "hanine")),
    (("Seo", "Bae", "Ryu", "Gwan"), ("hwanik", "milsan", "jindo", "rimdal")),
)
_FAMILIES = tuple(head + tail for heads, tails in _FAMILY for head in heads for tail in tails)


def compose_names(women: Ints, draws: Draws) -> pl.Series:
    """One name for each athlete; `women` is 1 or 0."""
    count = len(women)
    given = pl.Series(_GIVEN[0] + _GIVEN[1]).gather(
        draws.below(count, len(_GIVEN[0])) + women * len(_GIVEN[0])
    )
    family = pl.Series(_FAMILIES).gather(draws.below(count, len(_FAMILIES)))
    second = pl.Series(_FAMILIES).gather(draws.below(count, len(_FAMILIES)))
    double = np.asarray(draws.chance(count, 0.04))
    frame = pl.DataFrame({"given": given, "family": family, "second": second, "double": double})
    both = pl.concat_str("family", pl.lit("-"), "second")
    family_name = pl.when("double").then(both).otherwise("family")
    return frame.select(name=pl.concat_str("given", pl.lit(" "), family_name))["name"]
