"""A group outside its control limits, and a small one of which hardly anything is known."""

from datetime import date

from seasonboard.answers.base import Summary
from seasonboard.answers.remakes.groups import Reason, RemakeGroup, Within
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
    group="phone",
    fitted=40,
    remakes=12,
    replacements=4,
    reason_not_recorded=3,
    share=Proportion(0.3, 0.2, 0.4, successes=12, trials=40),
    within=Within(0.35, 0.15, 0.45, days=45),
    control_limits=ControlLimits(0.05, 0.25, True),
    sessions_worn=600,
    per_100_worn=2.5,
    worn_control_limits=ControlLimits(0.5, 3.5, False),
    reasons=(FIT, LOST),
)
SCANNER = RemakeGroup(
    group="scanner",
    fitted=5,
    remakes=0,
    replacements=1,
    reason_not_recorded=2,
    share=Proportion(0.0, 0.0, 0.5, successes=0, trials=5),
    within=Within(None, why="no guard is known for 45 days yet", days=45),
    control_limits=ControlLimits(0.0, 0.55, None, TOO_FEW),
    sessions_worn=0,
    per_100_worn=None,
    worn_control_limits=ALONE,
)
WHOLE = RemakeGroup(
    group="all",
    fitted=45,
    remakes=13,
    replacements=6,
    reason_not_recorded=7,
    share=Proportion(0.29, 0.19, 0.39, successes=13, trials=45),
    within=Within(0.34, 0.14, 0.44, days=45),
    control_limits=ALONE,
    sessions_worn=610,
    per_100_worn=2.25,
    worn_control_limits=ALONE,
)
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
REASONS_OBJECT = [
    {"reason": "fit", "counts_as": "remake", "count": 12, "share": 0.75, "before_fitting": 2},
    {"reason": "lost", "counts_as": "replacement", "count": 4, "share": 0.25, "before_fitting": 3},
]
ALONE_OBJECT = {"low": None, "high": None, "why": "nothing to be compared with"}
OBJECT = {
    "by": "scan-method",
    "window": 45,
    "all": {
        "group": "all",
        "fitted": 45,
        "remakes": 13,
        "replacements": 6,
        "reason_not_recorded": 7,
        "share": 0.29,
        "low": 0.19,
        "high": 0.39,
        "within_45_days": {"share": 0.34, "low": 0.14, "high": 0.44, "days": 45},
        "control_limits": ALONE_OBJECT,
        "outside_limits": None,
        "reading": "no control limits",
        "sessions_worn": 610,
        "per_100_worn": {
            "value": 2.25,
            "control_limits": ALONE_OBJECT,
            "outside_limits": None,
            "why": "nothing to be compared with",
        },
        "reasons": [],
        "why": "nothing to be compared with",
    },
    "groups": [
        {
            "group": "phone",
            "fitted": 40,
            "remakes": 12,
            "replacements": 4,
            "reason_not_recorded": 3,
            "share": 0.3,
            "low": 0.2,
            "high": 0.4,
            "within_45_days": {"share": 0.35, "low": 0.15, "high": 0.45, "days": 45},
            "control_limits": {"low": 0.05, "high": 0.25},
            "outside_limits": True,
            "reading": "above its control limits",
            "sessions_worn": 600,
            "per_100_worn": {
                "value": 2.5,
                "control_limits": {"low": 0.5, "high": 3.5},
                "outside_limits": False,
            },
            "reasons": REASONS_OBJECT,
        },
        {
            "group": "scanner",
            "fitted": 5,
            "remakes": 0,
            "replacements": 1,
            "reason_not_recorded": 2,
            "share": 0.0,
            "low": 0.0,
            "high": 0.5,
            "within_45_days": {
                "share": None,
                "low": None,
                "high": None,
                "days": 45,
                "why": "no guard is known for 45 days yet",
            },
            "control_limits": {"low": 0.0, "high": 0.55, "why": TOO_FEW},
            "outside_limits": None,
            "reading": "too few to tell",
            "sessions_worn": 0,
            "per_100_worn": {
                "value": None,
                "control_limits": ALONE_OBJECT,
                "outside_limits": None,
                "why": "no session worn is recorded",
            },
            "reasons": [],
            "why": TOO_FEW,
        },
    ],
    "reasons": REASONS_OBJECT,
    "months": [
        {
            "month": "2026-09-01",
            "fitted": 30,
            "remakes": 9,
            "share": 0.325,
            "control_limits": {"low": 0.1, "high": 0.225},
            "outside_limits": True,
        },
        {
            "month": "2026-10-01",
            "fitted": 8,
            "remakes": 1,
            "share": 0.125,
            "control_limits": {"low": 0.0, "high": 0.6, "why": TOO_FEW},
            "outside_limits": None,
            "why": TOO_FEW,
        },
    ],
    "chains": {
        "firsts": 41,
        "remade_or_replaced": {
            "share": 0.26,
            "low": 0.16,
            "high": 0.36,
            "successes": 18,
            "trials": 42,
        },
        "remade_or_replaced_exact": {
            "share": 0.27,
            "low": 0.17,
            "high": 0.37,
            "successes": 19,
            "trials": 43,
        },
        "remade_or_replaced_within": {
            "share": 0.28,
            "low": 0.18,
            "high": 0.38,
            "successes": 20,
            "trials": 44,
        },
        "units": 21,
        "longest": 5,
        "days_to_stay": 15.5,
        "chains_fitted": 17,
    },
    "life": {
        "value": 32.0,
        "low": 31.0,
        "high": None,
        "unit": "sessions worn",
        "why": "no upper limit yet",
    },
    "guards_in_use": 25,
    "bare_exposures_waiting": 51,
    "waits": 16,
}
CSV = [
    "group,fitted,remakes,replacements,reason_not_recorded,share,low,high,within_share,"
    "within_low,within_high,within_days,control_limits_low,control_limits_high,outside_limits,"
    "reading,sessions_worn,per_100_worn,per_100_worn_control_limits_low,"
    "per_100_worn_control_limits_high,per_100_worn_outside_limits,why",
    "phone,40,12,4,3,0.3,0.2,0.4,0.35,0.15,0.45,45,0.05,0.25,True,above its control limits,600,"
    "2.5,0.5,3.5,False,",
    "scanner,5,0,1,2,0.0,0.0,0.5,,,,45,0.0,0.55,,too few to tell,0,,,,,"
    "too few to be called different",
    "all,45,13,6,7,0.29,0.19,0.39,0.34,0.14,0.44,45,,,,no control limits,610,2.25,,,,"
    "nothing to be compared with",
]
TEXT = [
    "scan method  fitted  remade             share  in 45 d  control limits  replaced",
    "phone            40      12  30 %, 20 to 40 %     35 %       5 to 25 %         4  above "
    "its control limits",
    "scanner           5       0    0 %, 0 to 50 %        –       0 to 55 %         1  too few "
    "to tell",
    "all              45      13  29 %, 19 to 39 %     34 %               –         6",
    "",
    "Remade within 45 days of fitting: 34 %, 14 to 44 %.",
    "Remakes per 100 sessions worn: 2.25.",
    "",
    "reason  guards  share  before fitting  counts as",
    "fit         12   75 %               2  remake",
    "lost         4   25 %               3  replacement",
    "",
    "scan method  fit  lost",
    "phone         12     4",
    "scanner        0     0",
    "",
    "fitted in  guards  in 45 d  control limits",
    "Sep 2026       30        9      10 to 22 %  outside its control limits",
    "Oct 2026        8        1       0 to 60 %",
    "",
    "Followed to the first guard: 18 of 41 first guards were asked for anew, whatever the "
    "reason (26",
    "%, 16 to 36 %), 20 of 44 within 45 days of fitting; 21 guards made in their place, the "
    "longest",
    "chain 5 guards. From the first asking to the guard that stayed: median 15.5 days.",
    "Guard life: median 32 sessions worn (90 %: 31 up, no upper limit yet; 25 guards still in "
    "use).",
    "Played bare while waiting for the guard asked for anew: 51 sessions over 16 waits.",
]
