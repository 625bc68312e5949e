"""What a browser makes of the page: on a screen, on a phone, and printed.

Chromium is the judge; the tests are skipped where none is installed.
"""

import io

import pypdf
import pytest

from tests.documents.conftest import squeezed

pytestmark = pytest.mark.long  # a browser is started


@pytest.mark.parametrize("which", ["sheet", "hostile", "offered"])
def test_it_is_drawn_without_a_complaint_asks_for_nothing_and_fits(browse, request, which):
    document = request.getfixturevalue(which)
    for wide in (1280, 360):
        page, console, asked = browse(document, wide)
        assert console == []
        assert len(asked) == 1
        assert asked[0].startswith("file:")
        assert page.evaluate("document.documentElement.scrollWidth") <= wide
        assert len(set(page.screenshot())) > 100  # a blank picture has few different bytes
        assert page.evaluate("getComputedStyle(document.body).lineHeight") != "normal"  # styled


def test_captions_and_headings_stay_in_sight_on_a_phone(browse, sheet):
    page, _, _ = browse(sheet, 360)
    cut = page.evaluate(
        "[...document.querySelectorAll('caption div, h1, h2, p, li, dd, .u td, .u th[scope=row]')]"
        ".filter(e => e.getBoundingClientRect().right > 361).map(e => e.textContent)"
    )
    assert cut == []


def test_letters_in_pictures_are_large_enough(browse, sheet):
    for wide in (1280, 360):
        page, _, _ = browse(sheet, wide)
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


@pytest.mark.parametrize(("paper", "size"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_it_prints_whole_with_page_numbers(browse, paper, size, sheet, offered):
    page, _, _ = browse(sheet, 1280)
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
    page, _, _ = browse(offered, 1280)
    assert 5 <= len(pypdf.PdfReader(io.BytesIO(page.pdf(format=paper))).pages) <= 9
