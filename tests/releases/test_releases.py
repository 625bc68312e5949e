"""Releases: frozen, numbered, renewed by block or quoted; what a store that lacks one says."""

from dataclasses import replace
from datetime import date
from functools import partial
from types import SimpleNamespace

import polars as pl
import pytest

from seasonboard.answers.source import AnswerSource
from seasonboard.entries import Entry
from seasonboard.errors import IntakeError
from seasonboard.releases import making
from seasonboard.releases.block import Release, ReleaseError
from seasonboard.releases.draft import Draft, in_equal_parts
from seasonboard.releases.injuries import declare_arms, declare_curves, sharing_sites
from seasonboard.releases.making import plan_release, renewed_or_quoted
from seasonboard.releases.reading import ReleaseMemory, current_release, stored_releases
from seasonboard.releases.text import plan_lines
from seasonboard.store.store import open_store
from tests.releasing import release_shin, written_to

DAY = date(2027, 1, 31)
COLUMNS = ("department", "sport", "sex", "guarded", "bare", "guarded_exposures", "bare_exposures")


def arms(*rows, agreed=frozenset(), key="R01"):
    """Return the block of departments with (guarded, bare) injuries in soccer, women or men."""
    draft = Draft(frozenset(agreed))
    frame = [(who, "soccer", sex, a, b, 500, 900) for who, sex, a, b in rows]
    declare_arms(draft, pl.DataFrame(frame, schema=COLUMNS, orient="row"))
    masked, figures = draft.masked()
    return making.Block("shin", key, DAY, DAY, 3, masked, figures), draft


def of_three(guarded, bare=60):
    """Return rows of three departments with so many injuries in all."""
    return [(d, "women", guarded // 3 + (n < guarded % 3), bare // 3) for n, d in enumerate("ABC")]


# What could be done to documents of a chosen scope, and cannot be done to a release.


def test_a_release_two_days_later_does_not_tell_the_one_injury_between():
    """28 then and 27 before would be one guarded injury; the block is quoted as it was."""
    first, later = arms(*of_three(27))[0], arms(*of_three(28), key="R02")[0]
    out = [Release("R01", DAY, DAY, (first,))]
    assert first.count("guarded injuries") == 27
    quoted = renewed_or_quoted(later, "shin", out)
    assert (quoted.made_in, quoted.count("guarded injuries")) == ("R01", 27)
    assert "Not renewed" in quoted.note
    much_later = arms(*of_three(39), key="R03")[0]
    assert renewed_or_quoted(much_later, "shin", out).count("guarded injuries") == 39


def test_no_page_can_be_of_a_part_of_the_departments_teams_or_positions(run):
    """Four pages of crossed scopes gave 159 - 134 - 107 + 87 = 5; field players gave the keeper."""
    for option in ("department", "team", "sport", "position-group", "through", "side", "setting"):
        done = run("handout", "proposal", "--sample", f"--{option}", "x")
        assert done.status == 2
        assert f"No such option '--{option}'" in done.err


def test_a_cut_of_fewer_than_eleven_is_not_told_nor_what_is_left_of_the_others():
    """All goalkeepers would be one of 14: a cut of 5 takes another with it, or the total."""
    rows = [(d, "women", 10, 20) for d in "ABC"]
    block, _ = arms(*rows, ("A", "men", 2, 3), ("B", "men", 2, 3), ("C", "men", 1, 3))
    told = [
        block.count(f"guarded injuries{cut}") for cut in ("", ", soccer, women", ", soccer, men")
    ]
    assert told[2] is None
    assert None in told[:2]


def test_at_risk_counts_do_not_tell_the_few_who_left_between_two_points():
    points = [
        SimpleNamespace(tick=tick, at_risk=at_risk, injuries=hurt, survival=share)
        for tick, at_risk, hurt, share in ((1, 120, 12, 0.9), (2, 105, 12, 0.8), (3, 90, 12, 0.7))
    ]
    group = SimpleNamespace(injuries=36, compared=SimpleNamespace(points=points))
    clock = SimpleNamespace(clock=SimpleNamespace(value="games"))
    followed = SimpleNamespace(start=1, options=clock, guarded=group, unguarded=group)
    draft = Draft()
    frame = [(who, "soccer", "women", 12, 12, 500, 900) for who in "ABC"]
    declare_arms(draft, pl.DataFrame(frame, schema=COLUMNS, orient="row"))
    declare_curves(draft, followed)
    masked, _ = draft.masked()
    shown = {n: v for n, v in masked.table.cells.items() if n in masked.table.shown - masked.hidden}
    at_risk = [value for name, value in shown.items() if name.startswith("at risk, guarded")]
    gaps = [abs(one - other) for one in at_risk for other in at_risk if one != other]
    assert all(gap >= 11 for gap in gaps)


# Departments behind figures on health.


@pytest.mark.parametrize(
    ("counts", "agreed", "is_told"),
    [
        ((12, 10, 8), "", True),
        ((15, 15), "", False),  # two departments
        ((15, 15), "AB", True),  # who both agreed
        ((15, 15), "A", False),
        ((24, 3, 3), "", True),  # 80 % of one is not more than 80 %
        ((50, 3, 3), "", False),
        ((50, 3, 3), "A", True),  # the one with most agreed
        ((30, 0, 0), "", False),  # only one had any
    ],
)
def test_figures_on_health_come_from_three_departments_none_with_most(counts, agreed, is_told):
    """The (1, 80) dominance rule: Hundepool et al. (2012), section 4.2.1."""
    rows = [(d, "women", n, 30) for d, n in zip("ABC", counts, strict=False)]
    block, draft = arms(*rows, agreed=agreed)
    assert (block.count("guarded injuries") == sum(counts)) is is_told
    if not is_told:
        assert draft.asked


def test_kinds_of_one_body_area_tell_injuries_once():
    covers = {"hand": ("hand",), "thumb": ("hand",), "shin": ("lower leg",)}
    assert sharing_sites(("thumb", "hand", "shin"), covers) == {"hand": "thumb"}


def test_a_distribution_is_told_in_parts_with_eleven_on_either_side():
    assert in_equal_parts([1.0, 2.0, 3.0], [10, 20, 14], 44) == [2.0, 3.0]
    assert in_equal_parts([1.0], [21], 21) == []


# A store with its release.


@pytest.fixture(scope="module")
def store(sample_store, tmp_path_factory):
    path = tmp_path_factory.mktemp("released") / "s.duckdb"
    path.write_bytes(sample_store.read_bytes())
    release_shin(path)
    return path


@pytest.mark.long
def test_what_is_kept_is_what_was_made_and_the_same_again_is_quoted(store):
    with written_to(store) as board:
        (release,) = stored_releases(board)
        (block,) = release.blocks
        assert (release.key, block.made_in, block.departments) == ("R01", "R01", 3)
        again = making.drafted(
            board, making.Scope(block.through, kinds=("shin",)), "R02", DAY, frozenset(), ""
        )
        assert (again.masked, again.figures) == (block.masked, block.figures)
        assert renewed_or_quoted(again, "shin", [release]) == block


@pytest.mark.parametrize(
    ("table", "row"),
    [
        ("releases", {"released_on": "2027-01-30", "through": "2027-01-30", "form": "1"}),
        ("release_blocks", {"kind": "shin", "made_in": "R01", "departments": "9"}),
        ("release_blocks", {"kind": "ankle", "made_in": "R01", "departments": "3"}),
    ],
)
def test_nothing_in_a_release_is_changed_or_added(store, table, row):
    with written_to(store) as board, pytest.raises(IntakeError) as caught:
        board.entry_writer.write(Entry("sly", {table: [{"release": "R01", **row}]}))
    assert "is frozen" in str(caught.value.problems[0].sentence())


def test_a_store_without_a_release_says_how_to_make_one(sample_store):
    with open_store(sample_store) as opened, pytest.raises(ReleaseError) as caught:
        current_release(AnswerSource(opened, "somewhere"), ReleaseMemory())
    assert "Nothing was released yet" in caught.value.what
    assert "seasonboard release --plan" in caught.value.hint


def test_a_release_that_was_made_here_and_is_gone_is_missed(store, tmp_path):
    memory = ReleaseMemory(tmp_path / "releases" / "a.txt")
    for key in ("R01", "R02"):
        memory.add(key)
    with written_to(store) as board:
        for ask in (current_release, partial(plan_release, made_on=DAY)):
            with pytest.raises(ReleaseError, match="Release R02 was made here") as caught:
                ask(board, memory)
        assert "--never-out R02" in caught.value.hint
        memory.forget("R02")
        assert current_release(board, memory).key == "R01"
        with pytest.raises(ReleaseError, match="No release R09 is remembered"):
            memory.forget("R09")


def test_a_release_of_a_newer_program_is_not_read(store, monkeypatch):
    monkeypatch.setattr("seasonboard.releases.reading.FORM", 0)
    with written_to(store) as board, pytest.raises(ReleaseError, match="newer seasonboard"):
        current_release(board, ReleaseMemory())


def test_a_store_of_one_department_tells_no_injury_without_its_agreement():
    block, draft = arms(("D", "women", 40, 40))
    assert draft.asked == {"D"}
    assert block.count("guarded injuries") is None
    agreed, _ = arms(("D", "women", 40, 40), agreed="D")
    assert agreed.count("guarded injuries") == 40


def test_the_plan_shows_every_figure_before_it_is_made(store):
    with written_to(store) as board:
        release = current_release(board, ReleaseMemory())
    lines = "\n".join(plan_lines(making.ReleasePlan(release, ("shin",))))
    assert "shin, 3 departments, new" in lines
    assert "orders, weekly allotment" in lines
    marked = replace(release.blocks[0], corrected=("orders",))
    plan = making.ReleasePlan(replace(release, blocks=(marked,)), ())
    assert "(corrected)" in "\n".join(plan_lines(plan))
