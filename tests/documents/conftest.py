"""Documents to write: the sheet of the sample season, and one whose every text is hostile."""

import shutil
import subprocess
import unicodedata
from datetime import date

import pytest

from seasonboard.answers.fields import Kind
from seasonboard.answers.source import AnswerSource
from seasonboard.documents.model import (
    Column,
    Document,
    Facts,
    Paragraph,
    Picture,
    Points,
    Room,
    Section,
    Table,
)
from seasonboard.documents.origin import Making
from seasonboard.documents.proposal.document import proposal
from seasonboard.documents.proposal.options import ProposalOptions
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.ranges import ForestRow, forest
from seasonboard.documents.week.document import week_sheet
from seasonboard.documents.writers.html import as_html
from seasonboard.releases.reading import ReleaseMemory, current_release
from seasonboard.scope import read_scope
from seasonboard.store.store import open_store
from tests.releasing import release_shin

HOSTILE = (
    "[bold]Lee[/] [/x]",
    "<script>alert(1)</script> & <b>",
    '#typst("x") $x$ *b* _i_ `c` \\ // @ref <label>',
    "=SUM(A1:A9)",
    "+1+1|cmd",
    "</style><img src=x onerror=alert(1)>",
    "Zoë 'O“Neil\"",
)
STEERING = "a\u202eb\u2066c\x1b[31md\x00e\nf"
CLEAN = "abc[31mde f"
MADE_ON = date(2026, 11, 20)


def squeezed(text):
    """Leave out where lines are broken and letters joined: that is the type's, not the text's."""
    text = unicodedata.normalize("NFKC", text)
    return "".join(text.split()).replace("\u2010", "-")


@pytest.fixture(scope="session")
def board(sample_store):
    with open_store(sample_store) as store:
        yield AnswerSource(store, "invented sample season", secret=lambda: "a secret of the tests")


def scope_of(board, **parts):
    return read_scope({"through": "2026-11-14", **parts}, board.scope_values)


@pytest.fixture(scope="session")
def sheet(board):
    return week_sheet(board, scope_of(board, department="QM"), Making("week", MADE_ON))


@pytest.fixture(scope="session")
def hostile():
    """Give a document with a hostile text in every place that takes one."""
    every = " · ".join((*HOSTILE, STEERING))
    columns = (Column("name"), Column(every), Column("n", Kind.COUNT), Column("on", Kind.TEXT))
    rows = tuple((text, STEERING, n, date(2026, 11, n + 1)) for n, text in enumerate(HOSTILE))
    table = Table(every[:40], every, columns, rows, lead=every, note=every)
    svg = forest(PictureWords("h", every, every, every), [ForestRow(every, 0.2, 0.1, 0.3, every)])
    picture = Picture(every, every, svg, Table("the same", every, columns, rows[:1]))
    parts = (Paragraph(every, every), Points(HOSTILE), table, picture, Room(every, 2))
    facts = Facts(MADE_ON, MADE_ON, every, every, "3fa94c0d21be", every)
    four, three = (every,) * 4, (HOSTILE,) * 3
    return Document("week", *four, (Section(every, parts),), facts, *three)


@pytest.fixture(scope="module")
def chromium():
    """Give the browser; where there is none, what needs one is skipped and says so.

    While it is open its event loop runs in this thread, where no test of a screen could run.
    """
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
    where = next(filter(None, map(shutil.which, names)), None)
    if where is None:
        pytest.skip(f"no browser: none of {', '.join(names)} is installed")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as played:
        browser = played.chromium.launch(executable_path=where, args=["--no-sandbox"])
        yield browser
        browser.close()


@pytest.fixture
def browse(chromium, tmp_path):
    """Open a document in a browser at a width; give the page, its console and what it asked for."""
    pages = []

    def open_it(document, wide):
        path = tmp_path / "page.html"
        path.write_bytes(as_html(document, "a4"))
        page = chromium.new_page(viewport={"width": wide, "height": 800})
        pages.append(page)
        console, asked = [], []
        page.on("console", lambda message: console.append(message.text))
        page.on("pageerror", lambda error: console.append(str(error)))
        page.on("dialog", lambda dialog: (console.append(dialog.message), dialog.dismiss()))
        page.on("request", lambda request: asked.append(request.url))
        page.goto(path.as_uri())
        return page, console, asked

    yield open_it
    for page in pages:
        page.close()


def table(document, name):
    """Return the only table of that name."""
    (match,) = [one for one in document.tables() if one.name == name]
    return match


def columns(shown, *headings):
    """Return the cells under some headings, row by row."""
    order = [[c.heading for c in shown.columns].index(heading) for heading in headings]
    return [tuple(row[place] for place in order) for row in shown.rows]


def column(shown, heading):
    """Return the cells under one heading."""
    return [cell for (cell,) in columns(shown, heading)]


def printed_text(data, folder):
    """Return the text of a PDF as `pdftotext` reads it; None where that is not installed."""
    if shutil.which("pdftotext") is None:
        return None
    (folder / "printed.pdf").write_bytes(data)
    asked = ["pdftotext", "-raw", folder / "printed.pdf", "-"]
    return subprocess.run(asked, capture_output=True, check=True).stdout.decode()


ASKED = ProposalOptions(
    by="Example Guards", to="Example College", printers=2, printer_hours=60, prints_per_week=20,
    printer_per_print=40, weekly_per_print=85, currency="USD", scan_before=3,
)  # fmt: skip


@pytest.fixture(scope="session")
def released(sample_store, tmp_path_factory):
    """Give the sample season as a store in which shin guards are released."""
    path = tmp_path_factory.mktemp("released") / "season.duckdb"
    path.write_bytes(sample_store.read_bytes())
    release_shin(path)
    return path


@pytest.fixture(scope="session")
def release(released):
    """Give its release."""
    with open_store(released) as store:
        return current_release(AnswerSource(store, "somewhere"), ReleaseMemory())


@pytest.fixture(scope="session")
def offer_of(board, release):
    """Make an offer from a release, with what is asked for it."""

    def make(options=ASKED, of=release):
        return proposal(board, of, None, Making("proposal", MADE_ON), options)

    return make


@pytest.fixture(scope="session")
def offered(offer_of):
    """Give an offer of shin guards on the sample season, made once."""
    return offer_of()
