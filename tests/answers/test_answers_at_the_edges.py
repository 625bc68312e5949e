"""Whatever was recorded, every answer has its words and numbers, and none is NaN."""

import csv
import io
import json

import pytest

from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.scope import read_scope
from tests.answers.edges import EDGES

SAID = {"question", "scope", "answer", "caveats", "left_out"}
RATE = {"injuries", "exposures", "rate", "low", "high"}
RATIO = {
    "comparison",
    "injuries_guarded",
    "injuries_unguarded",
    "exposures_guarded",
    "exposures_unguarded",
    "strata",
    "informative_strata",
    "rate_ratio",
    "low",
    "high",
    "p",
    "method",
    "exact",
    "homogeneity",
}
GROUP = {"group", "athletes", "injuries", "left", "curve", "median", "restricted_mean"}
POINT = {"tick", "at_risk", "injuries", "entered", "left", "survival", "std_error", "low", "high"}
TEST = {"chi_square", "df", "p"}
ASKED = (
    {"purpose": "preventive", "outcome": "time loss"},
    {"purpose": "return", "outcome": "any"},
    {"purpose": "all", "outcome": "any"},
)


def every_edge():
    return pytest.mark.parametrize("edge", list(EDGES))


def nulls_without_why(found, path=""):
    """Return where a number is null and nothing beside it says why."""
    if isinstance(found, list):
        return [
            bad for i, one in enumerate(found) for bad in nulls_without_why(one, f"{path}[{i}]")
        ]
    if not isinstance(found, dict):
        return []
    bad = [f"{path}.{k}" for k, v in found.items() if v is None and not found.get("why")]
    for key, value in found.items():
        if key != "scope":  # there, null is everything
            bad += nulls_without_why(value, f"{path}.{key}")
    return bad


def plain(text):
    """Say whether a text holds nothing that only a program would say."""
    words = set(text.lower().replace("(", " ").replace(")", " ").replace(",", " ").split())
    return not words & {"nan", "inf", "-inf", "none", "null", "none."}


def check_said(found, question):
    assert found.keys() >= SAID
    assert found["question"] == question
    assert found["answer"].endswith((".", ")"))
    assert plain(found["answer"])
    assert found["caveats"]
    assert all(plain(caveat) for caveat in found["caveats"])
    assert all(left["count"] > 0 and left["why"] for left in found["left_out"])
    json.dumps(found, allow_nan=False)
    assert nulls_without_why(found) == []


@pytest.mark.long
@every_edge()
def test_compare_has_its_fields_in_every_view(edge_board, edge):
    this = edge_board(edge)
    for asked in ASKED:
        answer = this.ask(COMPARE, read_scope(asked, this.scope_values))
        found = COMPARE.report().as_object(answer, "compare")
        check_said(found, "compare")
        assert found["scope"]["purpose"] == asked["purpose"]
        assert found["guarded"].keys() >= RATE
        assert found["unguarded"].keys() >= RATE
        names = [comparison["comparison"] for comparison in found["comparisons"]]
        assert names[:1] == ["same session"]
        assert {"same session", "alike athletes", "crude"} <= set(names)
        for comparison in found["comparisons"]:
            assert comparison.keys() >= RATIO
            assert comparison["exact"].keys() >= {"low", "high", "p"}
            assert comparison["homogeneity"].keys() >= TEST
            assert comparison["informative_strata"] <= comparison["strata"]
        assert found["verdict"]
        assert plain(COMPARE.report().as_text(answer))
        rows = list(csv.DictReader(io.StringIO(COMPARE.report().as_csv(answer))))
        assert [row["comparison"] for row in rows] == names


@pytest.mark.long
@every_edge()
def test_games_has_its_fields_on_every_clock(edge_board, edge):
    this = edge_board(edge)
    for clock, asked, min_at_risk in zip(Clock, ASKED, (5, 2, 1), strict=True):
        options = GamesOptions(clock, min_at_risk=min_at_risk)
        answer = this.ask(GAMES, read_scope(asked, this.scope_values), options)
        found = GAMES.report().as_object(answer, "games")
        check_said(found, "games")
        assert found["clock"] == clock.value
        assert [group["group"] for group in found["groups"]] == ["guarded", "unguarded"]
        for group in found["groups"]:
            check_group(group)
        assert found["restricted_mean_difference"].keys() >= {
            "horizon",
            "difference",
            "low",
            "high",
        }
        assert found["log_rank"].keys() >= TEST
        assert found["log_rank_stratified"].keys() >= TEST
        assert plain(GAMES.report().as_text(answer))
        rows = list(csv.DictReader(io.StringIO(GAMES.report().as_csv(answer))))
        assert len(rows) == sum(len(group["curve"]) for group in found["groups"])


def check_group(group):
    assert group.keys() >= GROUP
    assert group["median"].keys() >= {"value", "low", "high"}
    assert group["restricted_mean"].keys() >= {"horizon", "mean", "std_error"}
    points = group["curve"]
    assert all(point.keys() >= POINT for point in points)
    assert all(point["at_risk"] > 0 for point in points), (
        "a row for every tick with someone at risk"
    )
    assert [p["tick"] for p in points] == sorted({p["tick"] for p in points})
    assert sum(point["injuries"] for point in points) == group["injuries"]
    assert sum(point["left"] for point in points) == group["left"]
    entered = sum(point["entered"] for point in points)
    assert entered == group["injuries"] + group["left"], "who came in has gone out"
    shares = [p["survival"] for p in points if p["survival"] is not None]
    assert shares == sorted(shares, reverse=True)


SAYS = {
    "nothing at all": ("Nothing to compare yet: nobody is recorded", "Nothing to follow yet"),
    "a roster and no session": ("Nothing to compare yet: nobody", "Nothing to follow yet"),
    "nobody took part": ("Nothing to compare yet: nobody", "Nothing to follow yet"),
    "no guards": ("Nothing to compare yet: no guard counted here was worn", "No guard counted"),
    "nothing bare": ("Nothing to compare with: every recorded exposure", "Every exposure was"),
    "guards worn while out": ("Nothing to compare yet: no guard", "No guard counted here was worn"),
    "no injuries": ("Too few injuries to tell: 0 guarded, 0 bare", ""),
    "all hurt in the first game": ("Too few injuries to tell: 5 guarded, 5 bare", ""),
    "no guarded injury": ("Too few injuries to tell: 0 guarded, 3 bare", ""),
}


@pytest.mark.long
@pytest.mark.parametrize("edge", list(SAYS))
def test_what_cannot_be_told_is_told_in_words(edge_board, edge):
    this = edge_board(edge)
    scope = read_scope({"kind": "chest"}, this.scope_values)
    compared, followed = SAYS[edge]
    assert this.ask(COMPARE, scope).summary.answer.startswith(compared)
    assert this.ask(GAMES, scope).summary.answer.startswith(followed)


LEFT_OUT = {
    "nobody took part": {"athletes' sessions: attendance not recorded": 1},
    "injuries without a session": {
        "injuries: no session recorded": 1,
        "site-exposures: after an earlier injury to the site": 3,
    },
    "two injuries in one session": {
        "injuries: a second record of the same site in the same session": 1,
        "site-exposures: after an earlier injury to the site": 1,
    },
    "guards worn while out": {
        "athletes' sessions: attendance not recorded": 1,
        "guards worn: the athlete is not recorded as taking part in that session": 2,
    },
}


@pytest.mark.parametrize("edge", list(LEFT_OUT))
def test_what_is_left_out_is_counted_with_its_reason(edge_board, edge):
    """The same list stands in both answers, in the text and in the JSON."""
    this = edge_board(edge)
    scope = read_scope({"kind": "chest"}, this.scope_values)
    compared, followed = this.ask(COMPARE, scope), this.ask(GAMES, scope)
    for found in (
        COMPARE.report().as_object(compared, "compare"),
        GAMES.report().as_object(followed, "games"),
    ):
        told = {left["why"]: left["count"] for left in found["left_out"]}
        assert told == LEFT_OUT[edge]
    for text in (COMPARE.report().as_text(compared), GAMES.report().as_text(followed)):
        assert all(why in text for why in LEFT_OUT[edge])
