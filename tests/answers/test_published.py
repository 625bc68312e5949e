"""Published rates and shares: they agree with their own counts, and are never stretched."""

import csv
import math
from collections import Counter
from pathlib import Path

import pytest

from seasonboard.answers.published import published_rates, published_shares, rate_for, share_for
from seasonboard.errors import ScopeError
from seasonboard.prospect import SPORTS
from seasonboard.scope import Outcome
from seasonboard.terms import Area

WHOLE = [one for one in published_rates() if one.exposures is not None]
SAMPLE = Path(__file__).parents[2] / "sample_season" / "teams.csv"


@pytest.mark.parametrize("one", WHOLE, ids=lambda one: f"{one.sport} {one.setting} {one.division}")
def test_rates_and_limits_are_those_of_their_counts(one):
    """To the second decimal, as printed; the limits are Wald's, (x ± 1.96 √x) / exposures."""
    reach = 1.959964 * math.sqrt(one.injuries)
    printed = (one.rate, one.low, one.high)
    counted = [1000 * (one.injuries + by) / one.exposures for by in (0, -reach, reach)]
    assert printed == pytest.approx(counted, abs=0.0065)  # half a unit, and the papers' rounding


def test_the_parts_of_a_rate_add_up_to_the_whole():
    """Divisions do; so do games and practices, whose exposures are rounded estimates."""
    counts = {(o.sport, o.period, o.definition, o.division, o.setting): o for o in WHOLE}
    checked = 0
    for (*kind, division, setting), whole in counts.items():
        if division == "all" and (*kind, "I", setting) in counts:
            parts = [counts[*kind, one, setting] for one in ("I", "II", "III")]
            assert sum(one.injuries for one in parts) == whole.injuries
            assert abs(sum(one.exposures for one in parts) - whole.exposures) <= 2
            checked += 1
        if setting == "both" and (*kind, division, "game") in counts:
            parts = [counts[*kind, division, one] for one in ("game", "practice")]
            assert sum(one.injuries for one in parts) == whole.injuries
            assert abs(sum(one.exposures for one in parts) - whole.exposures) <= 2
            checked += 1
    assert checked > 15


def test_every_limit_holds_its_rate_and_every_line_its_source():
    for one in published_rates():
        assert one.rate > 0
        assert (one.low is None) == (one.high is None)
        assert one.low is None or one.low < one.rate < one.high
        assert len(one.source) > 20
        assert one.sport in SPORTS
        assert one.setting in {"game", "practice", "both"}
        assert one.definition in set(Outcome)


def test_the_rate_of_all_divisions_and_the_latest_period_is_preferred():
    found = rate_for("Soccer", "men", "game", Outcome.ANY)
    assert (found.injuries, found.exposures, found.division) == (1358, 80453, "all")
    assert (found.rate, found.low, found.high) == (16.88, 15.98, 17.78)


def test_a_rate_of_another_definition_or_setting_is_never_given():
    """Women's soccer: 6.60 with time lost (2004/05 on), 8.33 of any kind (2014/15 on)."""
    assert rate_for("soccer", "women", "both", Outcome.TIME_LOSS).rate == 6.6
    assert rate_for("soccer", "women", "both", Outcome.ANY).rate == 8.33
    assert rate_for("soccer", "women", "game", Outcome.TIME_LOSS) is None
    assert rate_for("chess", "women", "both", Outcome.ANY) is None
    assert rate_for("baseball", "women", "both", Outcome.TIME_LOSS) is None


def test_a_rate_that_is_not_printed_is_made_from_its_counts():
    found = rate_for("ice hockey", "women", "both", "time loss")
    assert found.rate == pytest.approx(752 / 232.051)
    assert found.low == pytest.approx(1000 * (752 - 1.959964 * math.sqrt(752)) / 232051)


def test_every_team_of_the_sample_season_but_one_has_a_rate():
    lines = list(csv.DictReader(SAMPLE.read_text("utf-8").splitlines()))
    without = {
        (one["sport"], one["sex"])
        for one in lines
        if not any(rate_for(one["sport"], one["sex"], "both", outcome) for outcome in Outcome)
    }
    assert without == {("basketball", "men")}


def test_a_share_is_of_whole_areas_alone():
    assert share_for("softball", "women", [Area.KNEE], "any").share == 0.112
    assert share_for("softball", "women", [Area.HAND, Area.WRIST], "any").category == "hand/wrist"
    assert share_for("softball", "women", [Area.HAND], "any") is None
    assert share_for("softball", "women", [Area.KNEE], "time loss") is None
    assert share_for("soccer", "women", [Area.ANKLE], "any") is None
    assert share_for("softball", "women", [], "any") is None


def test_shares_of_areas_that_stand_apart_are_added_within_one_source():
    both = share_for("softball", "women", ["knee", "shoulder"], "any")
    assert both.share == pytest.approx(0.112 + 0.152)
    assert set(both.areas) == {"knee", "shoulder"}
    assert share_for("softball", "women", ["knee", "thigh"], "any") is None


def test_categories_of_one_source_share_no_area_and_stay_below_all():
    by_source = {}
    for one in published_shares():
        by_source.setdefault((one.source, one.sport, one.sex), []).append(one)
    for shares in by_source.values():
        areas = Counter(area for one in shares for area in one.areas)
        assert max(areas.values()) == 1
        assert 0 < sum(one.share for one in shares) < 1


HEADS = "sport,sex,setting,definition,period,division,injuries,exposures,rate,low,high,source\n"


@pytest.fixture
def own_table(tmp_path, monkeypatch):
    monkeypatch.setattr("seasonboard.answers.published.settings_folder", lambda: tmp_path)
    return lambda line: (tmp_path / "rates.csv").write_text(HEADS + line, "utf-8")


def test_a_table_of_the_users_own_comes_before_that_of_the_program(own_table):
    own_table('soccer,women,both,any,2025/26,all,50,10000,,,,"our conference, 2026 report"\n')
    found = rate_for("soccer", "women", "both", "any")
    assert (found.rate, found.source) == (5.0, "our conference, 2026 report")
    assert rate_for("soccer", "men", "both", "any").injuries == 2821


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("soccer,women,both,any,2025/26,all,50,10000,,,,\n", "row 2 cannot be used: its source is"),
        ("soccer,women,both,any,2025/26,all,x,10000,,,,a\n", "row 2 cannot be used: invalid lit"),
        ("soccer,women,both,any,2025/26,all,,,,,,a\n", "neither a rate nor the counts"),
    ],
)
def test_a_line_that_cannot_be_used_is_told_with_its_row(own_table, line, said):
    own_table(line)
    with pytest.raises(ScopeError, match=said):
        rate_for("soccer", "women", "both", "any")
