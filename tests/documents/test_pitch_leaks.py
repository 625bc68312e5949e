"""No small count, no name: constructed leaks are refused or hidden, honest pages pass."""

import io
import itertools
import re
import zipfile
from dataclasses import replace
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from seasonboard.answers.questions import COMPARE, TAKE_UP
from seasonboard.disclosure.identifiers import IdentifierError
from seasonboard.disclosure.ledger import Ledger, LedgerError, PublishedCount
from seasonboard.disclosure.release import Policy
from seasonboard.disclosure.verdict import RefusedError
from seasonboard.documents.destination import ENDINGS, Destination, document_bytes
from seasonboard.documents.handout import deliver, forbidden_words
from seasonboard.documents.writers.html import as_html
from seasonboard.errors import SeasonboardError
from seasonboard.scope import read_scope
from tests.documents.conftest import PLAN, SHIN, ReleaseTerms, printed_text, table

STORE = Path("/srv/somewhere/far.duckdb")


@pytest.fixture(scope="module")
def not_in(board):
    return forbidden_words(board.identities(), STORE)


def texts(data):
    """Return what `grep` would find in a file, a workbook unzipped, a page without its style."""
    if zipfile.is_zipfile(io.BytesIO(data)):
        with zipfile.ZipFile(io.BytesIO(data)) as parts:
            data = b"\n".join(map(parts.read, parts.namelist()))
    return unescape(data.decode("utf-8", "ignore"))


@pytest.mark.long
def test_no_name_key_date_or_path_is_in_any_format(pitched, board, not_in, tmp_path):
    found = board.identities()
    whole = re.compile("|".join(map(re.escape, [*found.names, *found.clients, *found.keys])))
    for ending in ENDINGS:
        data, _ = document_bytes(pitched.document, Path(f"pitch{ending}"), "a4")
        text = texts(data)
        if ending == ".pdf":
            text = printed_text(data, tmp_path) or text
        assert [word for word in whole.findall(text) if len(word) > 3] == []
        assert not re.search(r"/home/|/Users/|/tmp/", text)
        days = set(re.findall(r"20\d\d-\d\d-\d\d", text)) - {"2027-01-30", "2026-11-20"}
        assert days == set()


@pytest.mark.long
@pytest.mark.parametrize(
    ("ending", "words"),
    [
        (".html", ("Holenlund", "LF-0001", "G00020", "Lanternfield College")),
        (".pdf", ("Jamila Holenlund",)),
        (".xlsx", ("LF-WSOC-F001",)),
    ],
)
def test_a_name_is_found_before_it_is_written(pitched, not_in, ending, words, tmp_path):
    for word in words:
        named = replace(pitched, document=replace(pitched.document, lead=f"As {word} says."))
        destination = Destination(tmp_path / f"pitch{ending}")
        with pytest.raises(IdentifierError, match=rf"(?i){word.split()[0]}"):
            deliver(named, destination, "a4", ledger=Ledger(tmp_path / "s.duckdb"), not_in=not_in)
    assert list(tmp_path.iterdir()) == []


def test_an_athlete_called_like_a_word_is_no_reason_to_refuse(pitched, not_in, tmp_path):
    alike = replace(not_in, names=("Page Games", "Session Price"), keys=("shin", "12", "all"))
    destination = Destination(tmp_path / "pitch.html")
    deliver(pitched, destination, "a4", ledger=Ledger(tmp_path / "s.duckdb"), not_in=alike)
    assert destination.path.exists()


@pytest.mark.long
def test_it_goes_into_the_ledger_and_the_same_again_passes(pitched, pitch_of, not_in, tmp_path):
    ledger = Ledger(tmp_path / "s.duckdb")
    for ending in ENDINGS:
        made = pitch_of(ReleaseTerms(earlier=ledger.read().entries), **SHIN)
        assert made.document == pitched.document
        deliver(made, Destination(tmp_path / f"p{ending}"), "a4", ledger=ledger, not_in=not_in)
    kept = ledger.read().entries
    assert [handout.kind for handout in kept] == ["pitch"] * 3
    assert len({handout.fingerprint for handout in kept}) == 1
    counted = {cell.definition.what for cell in kept[0].cells}
    assert {"guarded injuries", "bare injuries", "orders", "fitted guards"} <= counted
    assert not any("exposure" in what for what in counted)


def test_where_the_ledger_cannot_be_written_the_file_is_as_it_was(pitched, not_in, tmp_path):
    ledger = Ledger(tmp_path / "s.duckdb")
    ledger.folder.write_text("in the way")
    destination = Destination(tmp_path / "pitch.html")
    with pytest.raises(LedgerError, match="was taken away again"):
        deliver(pitched, destination, "a4", ledger=ledger, not_in=not_in)
    assert not destination.path.exists()
    destination.path.write_text("mine")
    with pytest.raises(LedgerError, match="is as it was before"):
        deliver(pitched, replace(destination, may_replace=True), "a4", ledger=ledger, not_in=not_in)
    assert destination.path.read_text() == "mine"


@pytest.mark.long
def test_all_but_one_department_after_all_of_them_is_refused_with_the_way_out(pitched, pitch_of):
    """One department alone has fewer than 11 injuries of guarded sites: all less the two others."""
    earlier = ReleaseTerms(earlier=(pitched.entry,))
    with pytest.raises(RefusedError) as caught:
        pitch_of(earlier, department="LF,SW", **SHIN)
    told = f"{caught.value.what} {caught.value.hint}"
    assert "below 11" in told
    assert f"in {pitched.entry.words()}" in told
    left_out = re.findall(r'--leave-out "(.+?)"', told)
    assert left_out
    made = pitch_of(replace(earlier, leave_out=tuple(left_out)), department="LF,SW", **SHIN)

    def counts(entry, department):
        return {
            cell.definition.what: cell.value
            for cell in entry.cells
            if dict(cell.definition.parts).get("department") == department
        }

    whole = counts(pitched.entry, None)
    rests = [whole[what] - count for what, count in counts(made.entry, ("LF", "SW")).items()]
    assert len(rests) > 3
    assert all(rest == 0 or rest >= 11 for rest in rests)


def test_a_count_that_changed_by_few_is_refused_and_by_many_passes(pitched, pitch_of):
    def before(less):
        cells = tuple(
            PublishedCount(cell.definition, cell.value - less * (cell.definition.what == "orders"))
            for cell in pitched.entry.cells
        )
        return ReleaseTerms(
            earlier=(replace(pitched.entry, cells=cells, through=date(2027, 1, 9)),)
        )

    with pytest.raises(RefusedError, match="The change of orders"):
        pitch_of(before(3), **SHIN)
    assert pitch_of(before(30), **SHIN).document.lead == pitched.document.lead


def test_a_few_exposures_later_with_the_same_counts_it_passes(pitched, pitch_of):
    """The ledger knows injuries, athletes, guards and orders, so a quiet week is no reason."""
    terms = ReleaseTerms(earlier=(replace(pitched.entry, through=date(2027, 1, 23)),))
    assert pitch_of(terms, **SHIN).document == pitched.document


def test_the_threshold_goes_up_freely_and_down_with_a_reason(pitch_of, pitched):
    with pytest.raises(SeasonboardError, match="without a reason"):
        Policy(5)
    with pytest.raises(SeasonboardError, match="Did you mean “guarded injuries”"):
        pitch_of(ReleaseTerms(leave_out=("guarded injury",)), **SHIN)
    reason = Policy(5, "The department asked for its own figures.")
    low = pitch_of(ReleaseTerms(reason), **SHIN).document
    assert any("The department asked" in each for each in low.keep_in_mind)
    high = pitch_of(ReleaseTerms(Policy(15)), **SHIN).document
    assert pitched.document.lead != high.lead
    text = texts(as_html(high))
    injuries = table(high, "injuries").rows[0]
    assert injuries[1:2] == ("fewer than 15",) or injuries[1] == "hidden"
    assert injuries[3] == injuries[4] == "hidden"
    assert "0.59" not in text  # the ratio that rests on them, in sentence, table and drawing
    assert high.lead.startswith("One season of 9 teams: what guards could keep is not told here")


@pytest.mark.long
def test_a_small_team_is_hidden_with_all_that_is_worked_out_of_it(pitch_of, board):
    """Women's basketball: injuries of every arm are few in it, in a scope of that team alone."""
    asked = {"team": "LF-WSOC", **SHIN}
    compared = board.ask(COMPARE, read_scope(asked, board.scope_values))
    few = [rate.injuries for rate in (compared.guarded, compared.unguarded)]
    assert any(0 < count < 11 for count in few)
    document = pitch_of(**asked).document
    for count, row in zip(few, table(document, "injuries").rows, strict=True):
        if 0 < count < 11:
            assert row[1] in {"hidden", "fewer than 11"}
            assert row[3] == row[4] == "hidden"
    assert {row[1] for row in table(document, "comparisons").rows} <= {
        "too few injuries to publish",
        "not known",
    }
    page = texts(as_html(document))
    assert "LF-WSOC" not in page
    assert "1 team served" in document.facts.scope
    assert document.facts.command.endswith("--team …")


@pytest.mark.long
def test_steps_that_few_fell_out_between_are_hidden_with_what_is_planned_from_them(pitch_of, board):
    """At one department fewer than 11 of those fitted never wore a guard, or declined an offer."""
    asked = {"department": "LF", **SHIN}
    taken = board.ask(TAKE_UP, read_scope(asked, board.scope_values))
    steps = {one.step: one.count for one in taken.whole.steps}
    document = pitch_of(**asked).document
    shown = {row[0]: row[1] for row in table(document, "take-up").rows if row[1] != "hidden"}
    assert {name: steps[name] for name in shown} == shown
    for first, second in itertools.pairwise(shown.values()):
        assert first <= second or first - second >= 11
    assert len(shown) < len(steps)
    takes = next(row for row in table(document, "what it rests on").rows if row[0] == "take-up")
    assert takes[1] == "hidden"
    given = pitch_of(options=replace(PLAN, take_up=0.5), **asked).document
    assert table(given, "prints").rows


@pytest.mark.long
def test_counting_again_every_hidden_count_can_be_eleven(pitch_of):
    """By brute force over all hidden cells of a printed table: each has several values, 11 too."""
    document = pitch_of().document
    rows = re.findall(
        r'<th scope="row">([^<]+)</th><td class="n">([^<]+)</td>',
        as_html(document).decode().split("Fitted guards that were remade")[1].split("</table>")[0],
    )
    fitted = {kind: text.replace(",", "") for kind, text in rows}
    whole = int(fitted.pop("all kinds"))
    hidden = [kind for kind, text in fitted.items() if text == "hidden"]
    assert len(hidden) >= 2
    rest = whole - sum(int(text) for text in fitted.values() if text != "hidden")
    each = itertools.product(range(1, rest + 1), repeat=len(hidden))
    ways = [counts for counts in each if sum(counts) == rest]
    for values in map(set, zip(*ways, strict=True)):
        assert len(values) > 1
        assert max(values) >= 11
