"""The page left with a new department: the figures of one release, and what follows from them."""

import io
import re
from dataclasses import replace

import openpyxl
import pytest

from seasonboard.answers import words
from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.pitch.options import PitchOptions
from seasonboard.answers.questions import COMPARE, TAKE_UP, TURNAROUND
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.disclosure.identifiers import IdentifierError
from seasonboard.documents.destination import ENDINGS, Destination
from seasonboard.documents.handout import deliver, forbidden_words
from seasonboard.documents.model import Paragraph, Picture, Points
from seasonboard.documents.pitch.document import pitch_handout
from seasonboard.documents.writers.html import as_html
from seasonboard.documents.writers.pdf import as_pdf
from seasonboard.documents.writers.xlsx import as_workbook
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.releases.block import ReleaseError
from seasonboard.scope import read_scope
from tests.documents.conftest import (
    MADE_ON,
    PLAN,
    Making,
    column,
    columns,
    printed_text,
    table,
)

HEADINGS = [
    "The plan at a glance",
    "What guards could keep in one season",
    "Prints, and how long a guard would take",
    "What would change it most",
    "Evidence: injuries in departments served",
    "Evidence: games before an injury",
    "Evidence: how long a guard took",
    "Evidence: what came back",
    "Evidence: who took a guard, and wears it",
    "What we may say",
    "What we do not say",
    "Published rates used",
]
SHIN = {"kind": "shin", "through": "2027-01-30"}


@pytest.fixture(scope="module")
def scope(board):
    return read_scope(SHIN, board.scope_values)


def sentences(document, heading):
    (section,) = [s for s in document.sections if s.heading == heading]
    texts = [p.text for p in section.parts if isinstance(p, Paragraph)]
    return texts + [each for p in section.parts if isinstance(p, Points) for each in p.points]


def test_its_parts_come_in_the_order_in_which_they_are_read(pitched):
    assert [section.heading for section in pitched.sections] == HEADINGS
    assert pitched.title == "What a season with guards could look like for a department of 9 teams"
    assert "shin guards at 3 departments" in pitched.of
    assert "released 31 Jan 2027" in pitched.of
    pictures = [p for s in pitched.sections for p in s.parts if isinstance(p, Picture)]
    assert [each.table.name for each in pictures] == [
        "one season", "comparisons", "before an injury", "orders still open",
    ]  # fmt: skip


@pytest.mark.long
def test_the_evidence_has_the_digits_of_compare_turnaround_and_take_up(pitched, board, scope):
    compared = board.ask(COMPARE, scope)
    injuries = table(pitched, "injuries")
    assert column(injuries, "injuries") == [compared.guarded.injuries, compared.unguarded.injuries]
    ratios = dict(row[:2] for row in table(pitched, "comparisons").rows)
    for each in compared.comparisons:
        ratio = each.ratio
        if min(ratio.injuries_guarded, ratio.injuries_unguarded) >= 11:
            limits = words.interval(*(round(end, 2) for end in (ratio.low, ratio.high)))
            assert ratios[each.name] == f"{words.ratio(round(ratio.value, 2))} ({limits})"
        else:
            assert ratios[each.name] == "too few injuries to publish"
    timed = board.ask(TURNAROUND, scope, TurnaroundOptions(by=OrdersBy.PLAN))
    orders = dict(columns(table(pitched, "turnaround"), "plan", "orders"))
    assert orders == {
        **{group.key: group.orders for group in timed.groups},
        "all orders": timed.whole.orders,
    }
    steps = dict(row[:2] for row in table(pitched, "take-up").rows)
    assert steps == {step.step: step.count for step in board.ask(TAKE_UP, scope).whole.steps}


def test_a_plan_of_one_department_says_so(pitched):
    of = dict(columns(table(pitched, "turnaround"), "plan", "of"))
    assert of == {
        "onsite printer": "one department",
        "weekly allotment": "2 departments",
        "all orders": "3 departments",
    }


def test_nothing_but_the_release_and_what_was_given_is_in_it(board, release, pitched):
    """The same release gives the same page to the letter, whatever the store holds by now."""

    class Sealed:
        def __init__(self, board):
            self.scope_values, self.store_label = board.scope_values, board.store_label
            self.pitch_planned = board.pitch_planned

    again = pitch_handout(Sealed(board), release, "shin", Making("pitch", MADE_ON), PLAN)
    assert again == pitched


def test_a_kind_that_was_not_released_is_refused_with_those_that_were(board, release):
    with pytest.raises(ReleaseError, match="no figures of “ankle” guards") as caught:
        pitch_handout(board, release, "ankle", Making("pitch", MADE_ON))
    assert "It has: shin." in caught.value.hint


def test_a_count_told_higher_before_is_marked(pitch_of, release):
    (block,) = release.blocks
    marked = replace(block, corrected=("orders",))
    document = pitch_of(of=replace(release, blocks=(marked,)))
    assert table(document, "turnaround").rows[-1][2].endswith("(corrected)")
    assert any("Corrected since an earlier release: orders" in e for e in document.keep_in_mind)


def test_a_quoted_block_says_when_it_was_made(pitch_of, release):
    document = pitch_of(of=replace(release, key="R02"))
    assert "release R02 of 2027-01-31, which quotes release R01" in document.facts.scope


def test_what_may_be_said_is_nothing_of_prevention(pitched):
    may = sentences(pitched, "What we may say")
    assert any("fitted within" in text for text in may)
    not_said = sentences(pitched, "What we do not say")
    assert any(text.startswith("Not said, since") for text in not_said)
    assert "so far)" not in as_html(pitched).decode()
    assert not re.search(r"\bguards? (?:prevents?|protects?|is safe)\b", " ".join(may))


def test_a_given_prospect_is_planned_and_published_rates_are_named(pitch_of):
    teams = Prospect((ProspectTeam("volleyball", "women", 9, (), 30, 80),))
    document = pitch_of(PitchOptions(teams))
    assert column(table(document, "teams"), "athletes") == [9]
    (source,) = set(sentences(document, "Published rates used"))
    rests = column(table(document, "teams"), "rests on")
    assert (rests == ["published rates"]) is source.startswith("women's volleyball, published")


@pytest.fixture(scope="module")
def not_in(board, released):
    return forbidden_words(board.identities(), released)


def test_no_name_key_or_path_is_in_any_format(pitched, board, not_in, tmp_path):
    found = board.identities()
    whole = re.compile("|".join(map(re.escape, [*found.names, *found.clients, *found.keys])))
    for ending in ENDINGS:
        deliver(pitched, Destination(tmp_path / f"pitch{ending}"), "a4", not_in=not_in)
    text = as_html(pitched).decode()
    assert [word for word in whole.findall(text) if len(word) > 3] == []
    assert not re.search(r"/home/|/Users/|/tmp/", text)


@pytest.mark.parametrize("word", ["Holenlund", "LF-0001", "G00020", "Lanternfield College"])
def test_a_name_is_found_before_it_is_written(pitched, not_in, word, tmp_path):
    named = replace(pitched, lead=f"As {word} says.")
    with pytest.raises(IdentifierError, match=rf"(?i){word.split()[0]}"):
        deliver(named, Destination(tmp_path / "pitch.html"), "a4", not_in=not_in)
    assert list(tmp_path.iterdir()) == []


def test_the_pdf_says_the_same_on_both_papers(pitched, tmp_path):
    for paper in ("a4", "letter"):
        printed = as_pdf(pitched, paper)
        assert not printed.summary
        text = printed_text(printed.data, tmp_path)
        if text is None:
            pytest.skip("pdftotext is not installed")
        text = re.sub(r"\s|‐|-", "", text)
        wanted = [pitched.lead, *sentences(pitched, "What we may say"), *HEADINGS]
        wanted += [" ".join(map(str, row[:2])) for row in table(pitched, "take-up").rows]
        assert [part for part in wanted if re.sub(r"\s|-", "", part) not in text] == []


def test_the_workbook_holds_the_figures_as_they_are_read_and_nothing_hidden(pitched):
    """More digits than are shown would tell more of the counts behind them."""
    book = openpyxl.load_workbook(io.BytesIO(as_workbook(pitched)))
    assert {sheet.sheet_state for sheet in book} == {"visible"}
    cells = [cell.value for sheet in book for row in sheet.iter_rows() for cell in row]
    numbers = [cell for cell in cells if isinstance(cell, float)]
    assert numbers
    assert all(round(number, 2) == number for number in numbers)
    assert len(book.sheetnames) == 1 + len(list(pitched.tables()))
