"""The offer to a new department: two pages to say yes to, then the figures of one release."""

import io
import itertools
import re
from dataclasses import replace

import openpyxl
import pypdf
import pytest

from seasonboard.answers.orders.order_groups import OrdersBy
from seasonboard.answers.questions import COMPARE, TAKE_UP, TURNAROUND
from seasonboard.answers.turnaround.options import TurnaroundOptions
from seasonboard.disclosure.identifier_scan import IdentifierError
from seasonboard.documents.destination import ENDINGS, Destination
from seasonboard.documents.handout import deliver, forbidden_words
from seasonboard.documents.model import Paragraph, Picture, Points
from seasonboard.documents.proposal.document import proposal
from seasonboard.documents.proposal.notes import founder_notes
from seasonboard.documents.proposal.options import LETTERS, ProposalOptions
from seasonboard.documents.writers.html import as_html
from seasonboard.documents.writers.pdf import as_pdf
from seasonboard.documents.writers.text import as_lines
from seasonboard.documents.writers.xlsx import as_workbook
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.releases.block import Figure, ReleaseError
from seasonboard.scope import read_scope
from tests.documents.conftest import (
    ASKED,
    MADE_ON,
    Making,
    column,
    columns,
    printed_text,
    squeezed,
    table,
)

PAGES = [
    [
        "What a guard is, and how it is made", "What you get", "What we ask of you",
        "Two ways to have them made",
    ],
    [
        "What to expect in your season", "What is known, and what is not yet", "Before you decide",
        "To accept",
    ],
    [
        "Appendix: how long a guard took", "What came back", "Who took a guard, and wears it",
        "Injuries in departments served", "Games before an injury", "How it was worked out",
    ],
]  # fmt: skip
SHIN = {"kind": "shin", "through": "2027-01-30"}


@pytest.fixture(scope="module")
def scope(board):
    return read_scope(SHIN, board.scope_values)


def sentences(document, heading):
    (section,) = [s for s in document.sections if s.heading == heading]
    texts = [p.text for p in section.parts if isinstance(p, Paragraph)]
    return texts + [each for p in section.parts if isinstance(p, Points) for each in p.points]


def test_two_pages_come_before_the_evidence(offered):
    pages = [[]]
    for section in offered.sections:
        pages += [[]] if section.starts_page else []
        pages[-1].append(section.heading)
    assert pages == PAGES
    assert offered.title == "Shin guards for Example College"
    assert offered.of.startswith("An offer from Example Guards · ")
    assert "as released on 31 Jan 2027" in offered.notice
    pictures = [p for s in offered.sections for p in s.parts if isinstance(p, Picture)]
    assert [each.table.name for each in pictures] == [
        "one season", "curve of orders", "comparisons", "curve of injuries",
    ]  # fmt: skip
    assert all(each.description.startswith(("A ", "Two ")) for each in pictures)


def test_the_two_plans_stand_side_by_side(offered):
    plans = {name: each for name, *each in table(offered, "two plans").rows}
    first, other = plans["days so far"]
    assert re.fullmatch(r"median \d+ days, 80 % within \d+; one department", first)
    assert re.fullmatch(r"median \d+ days, 80 % within \d+; 2 departments", other)
    assert plans["fees"] == ["40 USD a print", "85 USD a print"]
    assert all(
        re.fullmatch(r"[\d,]+ USD in \d months", each) for each in plans["total of the season"]
    )
    assert all(re.search(r"19 in 20 seasons", each) for each in plans["busiest week asks for"])


def test_nothing_on_the_two_pages_is_said_to_who_makes_the_offer(offered):
    text = " ".join(as_lines(offered, pages=2)).casefold()
    assert not re.search(r"promise no|prospect|founder|\btheirs?\b building|ask pitch|--", text)
    assert "a guard does not prevent every injury" in text
    assert "this offer promises no number" in text


def with_ratio(release, *limits):
    """Give the release with another ratio in the same sessions."""
    (block,) = release.blocks
    name = "ratio, same session"
    figures = {**block.figures, name: Figure(name, *limits)}
    return replace(release, blocks=(replace(block, figures=figures),))


@pytest.mark.parametrize(("limits", "is_told"), [((0.5, 0.3, 0.8), True), ((0.5, 0.2, 1.1), False)])
def test_games_kept_are_told_where_the_interval_lies_below_1(offer_of, release, limits, is_told):
    document = offer_of(of=with_ratio(release, *limits))
    expected = " ".join(sentences(document, "What to expect in your season"))
    assert ("would be kept on average" in expected) is is_told
    names = column(table(document, "one season"), "in one season")
    assert ("games kept" in names) is is_told


@pytest.mark.long
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_longest_offer_has_two_pages_and_no_page_is_half_empty(offer_of, paper):
    """Where the type is the program's own, the same everywhere: in its PDF."""
    text = "We say all there is to say of it here. " * 9
    texts = ("fitted_by", "included", "space_and_power", "if_it_stops", "contact", "to")
    teams = [ProspectTeam("soccer", sex, 30, (), 22, 66) for sex in ("women", "men")]
    longest = replace(
        ASKED, prospect=Prospect(tuple(teams * 12)), **dict.fromkeys(texts, text[:LETTERS])
    )
    for options in (ASKED, longest):
        pages = pypdf.PdfReader(io.BytesIO(as_pdf(offer_of(options), paper).data)).pages
        starts = [squeezed(page.extract_text()) for page in pages]
        for page, headings in zip(starts, PAGES, strict=False):
            assert squeezed(headings[0]) in page
        assert squeezed(PAGES[1][-1]) in starts[1]
        assert all(len(text) > 500 for text in starts)


@pytest.mark.long
def test_the_evidence_has_the_digits_of_compare_turnaround_and_take_up(offered, board, scope):
    compared = board.ask(COMPARE, scope)
    injuries = table(offered, "injuries")
    assert column(injuries, "injuries") == [compared.guarded.injuries, compared.unguarded.injuries]
    ratios = {name: each[:3] for name, *each in table(offered, "comparisons").rows}
    for each in compared.comparisons:
        ratio = each.ratio
        if min(ratio.injuries_guarded, ratio.injuries_unguarded) >= 11:
            assert ratios[each.name] == [round(n, 2) for n in (ratio.value, ratio.low, ratio.high)]
        else:
            assert ratios[each.name] == ["not told"] * 3
    timed = board.ask(TURNAROUND, scope, TurnaroundOptions(by=OrdersBy.PLAN))
    orders = dict(columns(table(offered, "turnaround"), "plan", "orders"))
    assert orders == {
        **{group.key: group.orders for group in timed.groups},
        "all orders": timed.whole.orders,
    }
    steps = dict(row[:2] for row in table(offered, "take-up").rows)
    assert steps == {step.step: step.count for step in board.ask(TAKE_UP, scope).whole.steps}


def test_a_plan_of_one_department_says_so(offered):
    of = dict(columns(table(offered, "turnaround"), "plan", "of"))
    assert of == {
        "onsite printer": "one department",
        "weekly allotment": "2 departments",
        "all orders": "3 departments",
    }


def test_nothing_but_the_release_and_what_was_given_is_in_it(board, release, offered):
    """The same release gives the same page to the letter, whatever the store holds by now."""

    class Sealed:
        def __init__(self, board):
            self.scope_values, self.store_label = board.scope_values, board.store_label
            self.pitch_planned = board.pitch_planned

    again = proposal(Sealed(board), release, "shin", Making("proposal", MADE_ON), ASKED)
    assert again == offered


def test_a_kind_that_was_not_released_is_refused_with_those_that_were(board, release):
    with pytest.raises(ReleaseError, match="no figures of “ankle” guards") as caught:
        proposal(board, release, "ankle", Making("proposal", MADE_ON))
    assert "It has: shin." in caught.value.hint


def test_a_count_told_higher_before_is_marked(offer_of, release):
    (block,) = release.blocks
    marked = replace(block, corrected=("orders",))
    document = offer_of(of=replace(release, blocks=(marked,)))
    assert table(document, "turnaround").rows[-1][2].endswith("(corrected)")
    assert any("Corrected since an earlier release: orders" in e for e in document.keep_in_mind)


def test_a_quoted_block_says_when_it_was_made(offer_of, release):
    document = offer_of(of=replace(release, key="R02"))
    assert "release R02 of 2027-01-31, which quotes release R01" in document.facts.scope


def test_what_is_known_is_nothing_of_prevention(offered):
    known = sentences(offered, "What is known, and what is not yet")
    assert any("fitted within" in text for text in known)
    assert "so far)" not in as_html(offered).decode()
    assert not re.search(r"\bguards? (?:prevents?|protects?|is safe)\b", " ".join(known))


def test_what_it_lacks_is_known_before_it_is_saved(offered, offer_of):
    assert offered.hollow == ("The teams are like those served, not the prospect's: --teams.",)
    bare = offer_of(ProposalOptions())
    assert len(bare.hollow) == 4
    assert bare.title == "Shin guards for your department"
    assert not any(text in as_html(bare).decode() for text in bare.hollow)


def test_the_notes_say_what_the_offer_does_not(board, release):
    notes = founder_notes(board, release, "shin", Making("notes", MADE_ON), ASKED)
    text = "\n".join(as_lines(notes))
    assert notes.notice.startswith("For insiders")
    assert "Never: that guards prevent injury" in text
    assert "No number of games kept" in text
    assert re.search(r"Hidden as counts of 1 to 10: .*prints asked for later", text, re.DOTALL)
    assert "How do you know that it works?" in text
    assert sentences(notes, "What the offer lacks") == [
        "The teams are like those served, not the prospect's: --teams."
    ]


@pytest.fixture(scope="module")
def not_in(board, released):
    return forbidden_words(board.identities(), released)


def test_no_name_key_or_path_is_in_any_format(offered, board, not_in, tmp_path):
    found = board.identities()
    whole = re.compile("|".join(map(re.escape, [*found.names, *found.clients, *found.keys])))
    for ending in ENDINGS:
        deliver(offered, Destination(tmp_path / f"pitch{ending}"), "a4", not_in=not_in)
    text = as_html(offered).decode()
    assert [word for word in whole.findall(text) if len(word) > 3] == []
    assert not re.search(r"/home/|/Users/|/tmp/", text)


def test_who_offers_may_be_called_like_an_athlete(offered, not_in, tmp_path):
    named = replace(offered, of="An offer from Holenlund Guards", typed=("Holenlund Guards",))
    deliver(named, Destination(tmp_path / "offer.html"), "a4", not_in=not_in)
    with pytest.raises(IdentifierError):
        deliver(replace(named, typed=()), Destination(tmp_path / "b.html"), "a4", not_in=not_in)


@pytest.mark.parametrize("word", ["Holenlund", "LF-0001", "G00020", "Lanternfield College"])
def test_a_name_is_found_before_it_is_written(offered, not_in, word, tmp_path):
    named = replace(offered, lead=f"As {word} says.")
    with pytest.raises(IdentifierError, match=rf"(?i){word.split()[0]}"):
        deliver(named, Destination(tmp_path / "pitch.html"), "a4", not_in=not_in)
    assert list(tmp_path.iterdir()) == []


def test_the_pdf_says_the_same_on_both_papers(offered, tmp_path):
    for paper in ("a4", "letter"):
        printed = as_pdf(offered, paper)
        assert not printed.summary
        text = printed_text(printed.data, tmp_path)
        if text is None:
            pytest.skip("pdftotext is not installed")
        text = re.sub(r"\s|‐|-", "", text)
        wanted = [offered.lead, *sentences(offered, "Before you decide"), *itertools.chain(*PAGES)]
        wanted += [" ".join(map(str, row[:2])) for row in table(offered, "take-up").rows]
        assert [part for part in wanted if re.sub(r"\s|-", "", part) not in text] == []


def test_the_workbook_holds_numbers_as_they_are_read_and_nothing_hidden(offered):
    """More digits than are shown would tell more of the counts behind them."""
    book = openpyxl.load_workbook(io.BytesIO(as_workbook(offered)))
    assert {sheet.sheet_state for sheet in book} == {"visible"}
    assert len(book.sheetnames) == 1 + len(list(offered.tables()))
    cells = [
        cell.value for sheet in book.worksheets[1:] for row in sheet.iter_rows() for cell in row
    ]
    numbers = [cell for cell in cells if isinstance(cell, float)]
    assert numbers
    assert all(round(number, 2) == number for number in numbers)
    texts = [cell for cell in cells if isinstance(cell, str)]
    assert [text for text in texts if re.fullmatch(r"[\d., %]+|[\d.]+ \([\d. to]+\)", text)] == []
