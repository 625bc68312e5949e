"""A document's writer declares counts and gets them back masked."""

import doctest
from datetime import UTC, date, datetime

import pytest

from seasonboard.disclosure import document_release
from seasonboard.disclosure.count_definition import CountDefinition
from seasonboard.disclosure.document_release import DocumentRelease, neutral_labels
from seasonboard.disclosure.published_figures import (
    DerivedFigure,
    ShownInterval,
    ShownRate,
    ShownRatio,
)
from seasonboard.disclosure.release import Policy
from tests.privacy.made import text_of

DAY = date(2026, 11, 14)
MADE = datetime(2026, 11, 15, 9, tzinfo=UTC)


def test_the_worked_example_holds():
    assert doctest.testmod(document_release).failed == 0
    assert doctest.testmod(document_release).attempted >= 5


def injuries_by_team(release: DocumentRelease, *counts: int) -> list[str]:
    teams = [
        release.count(f"injuries, {t}", n, CountDefinition.within("injuries", {"team": t}))
        for t, n in zip("abcd", counts, strict=False)
    ]
    total = release.count("injuries, all", sum(counts), CountDefinition("injuries"))
    release.adds_up(total, teams)
    return [*teams, total]


def test_a_lone_small_count_is_fewer_than_eleven():
    release = DocumentRelease()
    lone = release.count("guards returned", 4)
    share = release.figure(DerivedFigure("why they came back", (lone,)))
    verdict = release.verdict()
    assert text_of(verdict, lone) == "fewer than 11"
    assert text_of(verdict, share) == "hidden"
    assert not verdict.is_refused


def test_in_a_sum_all_hidden_counts_carry_the_same_mark():
    release = DocumentRelease()
    names = injuries_by_team(release, 3, 12, 40)
    verdict = release.verdict()
    assert [text_of(verdict, name) for name in names] == ["hidden", "hidden", "40", "55"]
    assert verdict.notes()[0].startswith("“hidden” stands for a count of 1 to 10")
    assert verdict.may_show(names[2], names[3])
    assert not verdict.may_show(names[2], names[0])


def test_everything_worked_out_from_a_hidden_count_goes_with_it():
    release = DocumentRelease()
    few, many = release.count("guarded", 4), release.count("bare", 40)
    g_exposures, b_exposures = release.count("guarded AE", 900), release.count("bare AE", 3000)
    rates = [
        release.figure(ShownRate("guarded rate", few, g_exposures)),
        release.figure(ShownRate("bare rate", many, b_exposures)),
    ]
    limits = release.figure(ShownInterval("guarded limits", few, g_exposures))
    ratio = release.figure(ShownRatio("ratio", few, g_exposures, many, b_exposures))
    verdict = release.verdict()
    assert [text_of(verdict, n) for n in (*rates, limits, ratio)] == [
        "hidden", "13.3", "hidden", "hidden",
    ]  # fmt: skip
    assert verdict.may_show(rates[1])


def test_those_outside_a_share_are_a_count_too():
    """36 of 40 wear it: 4 do not, so that neither the share nor one of its counts may stand."""
    release = DocumentRelease()
    worn, athletes = release.count("worn", 36), release.count("athletes", 40)
    share = release.share("share worn", worn, athletes)
    verdict = release.verdict()
    assert text_of(verdict, share) == "hidden"
    assert {text_of(verdict, worn), text_of(verdict, athletes)} != {"36", "40"}


def test_a_single_team_goes_with_its_department():
    release = DocumentRelease()
    department, team = release.count("department", 4), release.count("team", 4)
    release.adds_up(department, [team])
    verdict = release.verdict()
    assert [text_of(verdict, department), text_of(verdict, team)] == ["hidden", "hidden"]


def test_a_rate_of_a_small_count_that_is_not_shown_goes_too():
    release = DocumentRelease()
    few, exposures = release.unpublished("few", 5), release.count("AE", 1000)
    rate = release.figure(ShownRate("rate", few, exposures))
    verdict = release.verdict()
    assert text_of(verdict, rate) == "hidden"
    assert not verdict.is_refused


def test_a_table_with_both_margins():
    release = DocumentRelease(Policy(5, "The case asks for 5."))
    sports, areas = ["soccer", "lacrosse", "rugby"], ["knee", "ankle", "wrist"]
    counts = [[7, 5, 2], [6, 9, 8], [11, 6, 5]]
    cells = [
        [release.count(f"{s}, {a}", n) for a, n in zip(areas, line, strict=True)]
        for s, line in zip(sports, counts, strict=True)
    ]
    rows = [release.count(s, sum(line)) for s, line in zip(sports, counts, strict=True)]
    columns = [
        release.count(a, sum(n)) for a, n in zip(areas, zip(*counts, strict=True), strict=True)
    ]
    total = release.count("all", 59)
    for row, line in zip(rows, cells, strict=True):
        release.adds_up(row, line)
    for column, cells_below in zip(columns, zip(*cells, strict=True), strict=True):
        release.adds_up(column, cells_below)
    release.adds_up(total, rows)
    release.adds_up(total, columns)
    verdict = release.verdict()
    assert [[text_of(verdict, c) for c in line] for line in cells] == [
        ["7", "hidden", "hidden"],
        ["6", "9", "8"],
        ["11", "hidden", "hidden"],
    ]
    assert [text_of(verdict, c) for c in (*rows, *columns, total)] == (
        ["14", "23", "22", "24", "20", "15", "59"]
    )
    assert (
        "Counts from 5 on are shown, not from 11 on as usual: The case asks for 5."
        in verdict.notes()
    )


def test_two_handouts_are_compared_and_a_count_can_be_left_out():
    first = DocumentRelease()
    injuries_by_team(first, 30, 25, 40)
    out = first.verdict().ledger_entry(MADE, kind="pitch", scope="All", through=DAY)
    assert [cell.value for cell in out.cells] == [30, 25, 40, 95]

    second = DocumentRelease()
    names = injuries_by_team(second, 30, 28, 60)
    verdict = second.verdict([out], date(2026, 11, 30))
    assert [d.value for d in verdict.differences] == [3]
    assert "pitch of 2026-11-15" in verdict.sentences()[0]
    again = second.verdict([out], date(2026, 11, 30), leave_out={names[1], names[3]})
    assert again.sentences() == ()
    assert text_of(again, names[1]) == "hidden"


def test_what_is_out_already_does_not_protect():
    """b would be the cheapest partner of a, but stands in an earlier handout of the same day."""
    first = DocumentRelease()
    b = first.count("b", 12, CountDefinition.within("injuries", {"team": "b"}))
    out = first.verdict().ledger_entry(MADE, kind="pitch", scope="All", through=DAY)
    second = DocumentRelease()
    names = injuries_by_team(second, 3, 12, 40)
    verdict = second.verdict([out], DAY)
    assert [text_of(verdict, n) for n in names] == ["hidden", "12", "hidden", "55"]
    assert not verdict.is_refused
    assert b == "b"


def test_hidden_counts_are_never_written_into_the_ledger():
    release = DocumentRelease()
    injuries_by_team(release, 3, 12, 40)
    out = release.verdict().ledger_entry(MADE, kind="pitch", scope="All", through=DAY)
    assert [cell.value for cell in out.cells] == [40, 55]


def test_differencing_need_the_documents_day():
    out = DocumentRelease().verdict().ledger_entry(MADE, kind="pitch", scope="", through=DAY)
    with pytest.raises(ValueError, match="through"):
        DocumentRelease().verdict([out])


def test_one_name_is_one_count():
    release = DocumentRelease()
    release.count("a", 20)
    assert release.count("a", 20) == "a"
    with pytest.raises(ValueError, match="already"):
        release.count("a", 21)
    with pytest.raises(KeyError):
        release.verdict().mark("never declared")


def test_departments_get_letters_by_size_never_their_names():
    sizes = [("LF", 40), ("MC", 90), ("QT", 10)]
    assert neutral_labels(sizes) == {
        "MC": "department A",
        "LF": "department B",
        "QT": "department C",
    }
    many = neutral_labels([(str(n), 100 - n) for n in range(30)])
    assert many["26"] == "department AA"
