"""The page left with a new department: the figures of `ask`, and only what may be shown."""

import io
import re

import openpyxl
import pytest

from seasonboard.answers import words
from seasonboard.answers.games.parts import Clock, GamesOptions
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.pitch.parts import PitchOptions
from seasonboard.answers.pitch.report import REPORT
from seasonboard.answers.questions import COMPARE, GAMES, PITCH, TAKE_UP, TURNAROUND
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.documents.model import Paragraph, Picture, Points, Table
from seasonboard.documents.pitch.document import pitch_handout
from seasonboard.documents.writers.html import as_html
from seasonboard.documents.writers.pdf import as_pdf
from seasonboard.documents.writers.xlsx import as_workbook
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.scope import read_scope
from tests.answers.edges import EDGES
from tests.documents.conftest import (
    MADE_ON,
    PLAN,
    SHIN,
    AnswerSource,
    Making,
    ReleaseTerms,
    column,
    printed_text,
    table,
)

HEADINGS = [
    "The plan at a glance",
    "What guards could keep in one season",
    "Prints, and how long a guard would take",
    "Cost",
    "What would change it most",
    "Evidence: injuries in departments served",
    "Evidence: games before an injury",
    "Evidence: how long a guard took",
    "Evidence: what came back",
    "Evidence: who took a guard, and wears it",
    "What we may say",
    "What we do not say, and what is missing",
    "Published rates used",
]


@pytest.fixture(scope="module")
def document(pitched):
    return pitched.document


@pytest.fixture(scope="module")
def scope(board):
    return read_scope(SHIN, board.scope_values)


@pytest.fixture(scope="module")
def answer(board, scope):
    return board.ask(PITCH, scope, PLAN)


def told(document, heading):
    (section,) = [s for s in document.sections if s.heading == heading]
    texts = [p.text for p in section.parts if isinstance(p, Paragraph)]
    return texts + [each for p in section.parts if isinstance(p, Points) for each in p.points]


@pytest.mark.long
def test_its_parts_come_in_the_order_in_which_they_are_read(document):
    assert [section.heading for section in document.sections] == HEADINGS
    assert document.title == "What a season with guards could look like for a department of 9 teams"
    pictures = [p for s in document.sections for p in s.parts if isinstance(p, Picture)]
    assert [each.table.name for each in pictures] == [
        "one season", "comparisons", "before an injury", "orders still open",
    ]  # fmt: skip


def test_the_lead_and_the_plan_are_those_of_ask(document, answer):
    asked = REPORT.as_object(answer, "pitch")
    assert document.lead == asked["answer"]
    teams = table(document, "teams")
    assert column(teams, "athletes") == [team["athletes"] for team in asked["teams"]]
    injuries = [team["injuries"] for team in asked["teams"]]
    assert column(teams, "injuries") == [None if one is None else round(one, 1) for one in injuries]
    season, prints = table(document, "one season"), table(document, "prints")
    for found, name, figure in (
        (season, "games kept", asked["season"]["games_kept"]),
        (season, "days kept", asked["season"]["days_kept"]),
        (season, "injuries averted", asked["season"]["averted"]),
        (prints, "all prints", asked["prints"]["all"]),
        (prints, "prints in the busiest week", asked["prints"]["busiest_week"]),
    ):
        row = next(row for row in found.rows if row[0] == name)
        ends = ("median", "low_80", "high_80", "low_95", "high_95")
        assert row[1:] == tuple(round(figure[end]) for end in ends)
    assert asked["sensitivity_sentence"] in told(document, "What would change it most")
    days = table(document, "turnaround ahead").rows[-1]
    assert days[1] == round(asked["prints"]["turnaround_days"]["median"])


def test_the_evidence_has_the_digits_of_compare_turnaround_and_take_up(document, board, scope):
    compared = board.ask(COMPARE, scope)
    injuries = table(document, "injuries")
    assert column(injuries, "injuries") == [compared.guarded.injuries, compared.unguarded.injuries]
    ratios = dict(row[:2] for row in table(document, "comparisons").rows)
    for each in compared.comparisons:
        ratio = each.ratio
        if min(ratio.injuries_guarded, ratio.injuries_unguarded) >= 11:
            limits = words.interval(ratio.low, ratio.high)
            assert ratios[each.name] == f"{words.ratio(ratio.value)} ({limits})"
        else:
            assert ratios[each.name] == "too few injuries to publish"
    timed = board.ask(TURNAROUND, scope, TurnaroundOptions(by=OrdersBy.DEPARTMENT))
    orders = dict(row[:2] for row in table(document, "turnaround").rows)
    assert sorted(orders.values()) == sorted(
        [group.orders for group in timed.groups] + [timed.whole.orders]
    )
    assert set(orders) == {*(f"department {letter}" for letter in "ABC"), "all departments"}
    steps = dict(row[:2] for row in table(document, "take-up").rows)
    assert steps == {step.step: step.count for step in board.ask(TAKE_UP, scope).whole.steps}


def test_the_curve_is_that_of_games_at_the_points_that_are_shown(document, board, scope):
    """By games a group has fewer than 11 injuries: the curve goes by sessions."""
    assert board.ask(GAMES, scope).guarded.injuries < 11
    asked = board.ask(GAMES, scope, GamesOptions(Clock.SESSIONS, min_at_risk=11))
    survived = {
        (name, point.tick): point
        for name, group in (("guarded", asked.guarded), ("bare", asked.unguarded))
        for point in group.compared.points
    }
    rows = [row for row in table(document, "before an injury").rows if row[1]]
    assert len(rows) > 3
    for name, tick, share, at_risk in rows:
        point = survived[name, tick]
        assert (share, at_risk) == (round(point.survival, 2), point.at_risk)


def test_what_may_be_said_is_what_the_claims_allow_and_nothing_of_prevention(document, answer):
    may = told(document, "What we may say")
    for claim in answer.claims:
        assert (claim.sentence in may) is (claim.is_supported and claim.is_for_outsiders)
    not_said = told(document, "What we do not say, and what is missing")
    assert sum(text.startswith("Not said: “") for text in not_said) == sum(
        not claim.is_supported for claim in answer.claims
    )
    everything = as_html(document).decode()
    assert len(everything.encode()) < 120_000
    assert "so far)" not in everything
    assert not re.search(r"\bguards? (?:prevents?|protects?|is safe)\b", " ".join(may))


@pytest.mark.long
def test_without_an_effect_nothing_is_promised(pitch_of):
    """Ankle guards: the few injuries of the sample show no effect."""
    document = pitch_of(kind="ankle").document
    kept = " ".join(told(document, "What guards could keep in one season"))
    assert "no game kept is promised" in kept or "Nothing is planned" in kept
    assert not re.search(r"the median is .?\d+ games? kept", document.lead)


def test_a_given_prospect_is_planned_and_published_rates_are_named(pitch_of):
    teams = Prospect((ProspectTeam("volleyball", "women", 9, (), 30, 80),))
    document = pitch_of(options=PitchOptions(teams), kind="ankle").document
    assert column(table(document, "teams"), "athletes") == [9]
    (source,) = set(told(document, "Published rates used"))
    rests = column(table(document, "teams"), "rests on")
    assert (rests == ["published rates"]) is source.startswith("women's volleyball, published")


@pytest.mark.long
@pytest.mark.parametrize("edge", ["nothing at all", "no guards", "some of everything"])
def test_stores_at_the_edge_make_a_page_in_clear_words(edge, tmp_path):
    with EDGES[edge]().load(tmp_path) as store:
        board = AnswerSource(store, "/home/someone/season.duckdb")
        scope = board.opening_scope()
        making = Making("pitch", MADE_ON)
        made = pitch_handout(board, scope, making, ReleaseTerms(), PitchOptions(None))
    page = as_html(made.document).decode()
    assert "Nothing to promise yet" in page or "is not told here" in page
    assert "None" not in re.sub(r"None: what is expected", "", page)
    assert "someone" not in page


def test_the_pdf_says_the_same_on_both_papers(document, tmp_path):
    for release in ("a4", "letter"):
        printed = as_pdf(document, release)
        assert not printed.summary
        text = printed_text(printed.data, tmp_path)
        if text is None:
            pytest.skip("pdftotext is not installed")
        text = re.sub(r"\s|‐|-", "", text)
        wanted = [document.lead, *told(document, "What we may say"), *HEADINGS]
        wanted += [" ".join(map(str, row[:2])) for row in table(document, "take-up").rows]
        assert [part for part in wanted if re.sub(r"\s|-", "", part) not in text] == []


def test_the_workbook_holds_the_figures_as_they_are_read_and_nothing_hidden(document):
    """More digits than are shown would tell more of the counts behind them."""
    book = openpyxl.load_workbook(io.BytesIO(as_workbook(document)))
    assert {sheet.sheet_state for sheet in book} == {"visible"}
    cells = [cell.value for sheet in book for row in sheet.iter_rows() for cell in row]
    numbers = [cell for cell in cells if isinstance(cell, float)]
    assert numbers
    assert all(round(number, 2) == number for number in numbers)
    tables = [one for one in document.tables() if isinstance(one, Table)]
    assert len(book.sheetnames) == 1 + len(tables)
