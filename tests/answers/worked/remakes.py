"""A group outside its control limits, and a small one of which hardly anything is known."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.remakes.groups import Reason, RemakeGroup, Within
from seasonboard.answers.remakes.monthly import AskedMonth
from seasonboard.answers.remakes.options import RemakesBy, RemakesOptions
from seasonboard.answers.remakes.parts import Chains, RemakeMonth, RemakesAnswer
from seasonboard.answers.rows import Rows
from seasonboard.scope import Scope
from seasonboard.stats.control_charts import ControlLimits
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion

FIT = Reason("fit", "remake", 12, 0.75, 2)
LOST = Reason("lost", "replacement", 4, 0.25, 3)
ALONE = ControlLimits(why="nothing to be compared with")
TOO_FEW = "too few to be called different"
PHONE = RemakeGroup(
    group="phone", fitted=40, remakes=12, replacements=4, reason_not_recorded=3,
    share=Proportion(0.3, 0.2, 0.4, successes=12, trials=40),
    within=Within(0.35, 0.15, 0.45, days=45), control_limits=ControlLimits(0.05, 0.25, True),
    sessions_worn=600, per_100_worn=2.5, worn_control_limits=ControlLimits(0.5, 3.5, False),
    reasons=(FIT, LOST),
)  # fmt: skip
SCANNER = RemakeGroup(
    group="scanner", fitted=5, remakes=0, replacements=1, reason_not_recorded=2,
    share=Proportion(0.0, 0.0, 0.5, successes=0, trials=5),
    within=Within(None, why="no guard is known for 45 days yet", days=45),
    control_limits=ControlLimits(0.0, 0.55, None, TOO_FEW),
    sessions_worn=0,
    per_100_worn=None,
    worn_control_limits=ALONE,
)  # fmt: skip
WHOLE = RemakeGroup(
    group="all", fitted=45, remakes=13, replacements=6, reason_not_recorded=7,
    share=Proportion(0.29, 0.19, 0.39, successes=13, trials=45),
    within=Within(0.34, 0.14, 0.44, days=45), control_limits=ALONE, sessions_worn=610,
    per_100_worn=2.25, worn_control_limits=ALONE,
)  # fmt: skip
ANSWER = RemakesAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 12, 1), level=0.9)),
    options=RemakesOptions(RemakesBy.SCAN_METHOD, 45, group_reasons=True),
    whole=WHOLE,
    groups=(PHONE, SCANNER),
    reasons=(FIT, LOST),
    months=(
        RemakeMonth(date(2026, 9, 1), 30, 9, 0.325, ControlLimits(0.1, 0.225, True)),
        RemakeMonth(date(2026, 10, 1), 8, 1, 0.125, ControlLimits(0.0, 0.6, None, TOO_FEW)),
    ),
    asked=(
        AskedMonth(date(2026, 10, 1), 4, ControlLimits(0.5, 10.5, False)),
        AskedMonth(date(2026, 11, 1), 11, ControlLimits(0.25, 10.25, True)),
    ),
    chains=Chains(
        firsts=41,
        remade_or_replaced=Proportion(0.26, 0.16, 0.36, successes=18, trials=42),
        remade_or_replaced_exact=Proportion(0.27, 0.17, 0.37, successes=19, trials=43),
        remade_or_replaced_within=Proportion(0.28, 0.18, 0.38, successes=20, trials=44),
        units=21,
        longest=5,
        days_to_stay=15.5,
        chains_fitted=17,
    ),
    life=Estimate(32.0, 31.0, None, why="no upper limit yet"),
    guards_in_use=25,
    bare_exposures=51,
    waits=16,
    rows=Rows("Guards asked for anew", (), (), 0, 0),
)
