"""What a browser makes of the page: on a screen, on a phone, and printed.

Chromium is the judge; the tests are skipped where none is installed.
"""

import io

import pypdf
import pytest

from seasonboard.documents.writers.html import as_html
from tests.documents.conftest import squeezed


@pytest.fixture(scope="module")
def opened(chromium, sheet, hostile, tmp_path_factory):
    """Open a document at a width; give the page, its console and what it asked for."""
    folder = tmp_path_factory.mktemp("pages")
    pages = []

    def open_it(which, wide):
        path = folder / f"{which}.html"
        path.write_bytes(as_html({"sheet": sheet, "hostile": hostile}[which], "a4"))
        page = chromium.new_page(viewport={"width": wide, "height": 800})
        told, asked = [], []
        page.on("console", lambda message: told.append(message.text))
        page.on("pageerror", lambda error: told.append(str(error)))
        page.on("dialog", lambda dialog: (told.append(dialog.message), dialog.dismiss()))
        page.on("request", lambda request: asked.append(request.url))
        page.goto(path.as_uri())
        pages.append(page)
        return page, told, asked

    yield open_it
    for page in pages:
        page.close()


@pytest.mark.long
@pytest.mark.parametrize("which", ["sheet", "hostile"])
@pytest.mark.parametrize("wide", [1280, 360])
def test_it_is_drawn_without_a_complaint_asks_for_nothing_and_fits(opened, which, wide):
    page, told, asked = opened(which, wide)
    assert told == []
    assert [url for url in asked if not url.startswith("file:")] == []
    assert len(asked) == 1
    assert page.evaluate("document.documentElement.scrollWidth") <= wide
    assert len(set(page.screenshot())) > 100  # a blank picture has few different bytes
    assert page.evaluate("getComputedStyle(document.body).lineHeight") != "normal"  # styled


def test_captions_and_headings_stay_in_sight_on_a_phone(opened):
    page, _, _ = opened("sheet", 360)
    cut = page.evaluate(
        "[...document.querySelectorAll('caption div, h1, h2, p, li, dd, .u td, .u th[scope=row]')]"
        ".filter(e => e.getBoundingClientRect().right > 361).map(e => e.textContent)"
    )
    assert cut == []


def test_letters_in_pictures_are_large_enough(opened):
    for wide in (1280, 360):
        page, _, _ = opened("sheet", wide)
        least = page.evaluate(
            "Math.min(...[...document.querySelectorAll('svg text')].map(e => "
            "parseFloat(getComputedStyle(e).fontSize) * e.getCTM().a))"
        )
        assert least >= 10


def pages_by_height(page, wide, high):
    """Return how many pages of a size, in points, the content takes in the type of this machine."""
    room = [(points - millimetres * 72 / 25.4) * 96 / 72 for points, millimetres in
            ((float(wide), 34), (float(high), 38))]  # fmt: skip
    page.emulate_media(media="print")
    page.set_viewport_size({"width": round(room[0]), "height": round(room[1])})
    return page.evaluate("document.documentElement.scrollHeight") / room[1]


@pytest.mark.long
@pytest.mark.parametrize(("paper", "size"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_it_prints_whole_with_page_numbers(opened, paper, size, sheet):
    page, _, _ = opened("sheet", 1280)
    printed = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
    wide, high = printed.pages[0].mediabox[2:]
    assert (round(float(wide)), round(float(high))) == pytest.approx(size, abs=1)
    count = len(printed.pages)
    by_height = pages_by_height(page, wide, high)
    assert by_height * 2 / 3 <= count <= by_height * 3 / 2
    texts = [squeezed(p.extract_text()) for p in printed.pages]
    assert all(f"{n}/{count}" in text for n, text in enumerate(texts, 1))
    for part in (sheet.lead, sheet.facts.mark, *(section.heading for section in sheet.sections)):
        assert squeezed(part) in "".join(texts), part
