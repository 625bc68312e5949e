"""The page is sound HTML, needs nothing, runs nothing, and shows every text as it is.

html5lib (the parser of the HTML standard) is the judge of the markup.
"""

import itertools
import re

import html5lib
import pytest

from seasonboard.answers.fields import Kind
from seasonboard.documents.model import Column, Table
from seasonboard.documents.writers.html import as_html, is_unfolded, page_style
from tests.documents.conftest import CLEAN, HOSTILE

H = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"


def parsed(document, release="a4"):
    parser = html5lib.HTMLParser(strict=True)
    root = parser.parse(as_html(document, release).decode())
    assert not parser.errors
    return root


def summary(element):
    return " ".join("".join(element.itertext()).split())


@pytest.fixture(scope="module", params=["sheet", "hostile", "offered"])
def page(request):
    return parsed(request.getfixturevalue(request.param))


def test_headings_come_in_order_and_the_language_is_said(page):
    assert page.get("lang") == "en"
    levels = [int(e.tag[-1]) for e in page.iter() if re.fullmatch(rf"{H}h[1-6]", str(e.tag))]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))


def test_every_table_has_a_caption_and_headings_with_a_scope(page):
    tables = list(page.iter(f"{H}table"))
    assert tables
    for table in tables:
        assert summary(table.find(f"{H}caption"))
        heads = list(table.find(f"{H}thead").iter(f"{H}th"))
        assert heads
        assert {th.get("scope") for th in heads} == {"col"}
        for row in table.find(f"{H}tbody"):
            assert row[0].get("scope") == "row"
            assert len(row) == len(heads)


def test_every_picture_has_title_description_and_a_table_after_it(page):
    pictures = list(page.iter(f"{SVG}svg"))
    assert pictures
    names = [e.get("id") for e in page.iter() if e.get("id")]
    assert len(names) == len(set(names))
    for picture in pictures:
        assert set(picture.get("aria-labelledby").split()) <= set(names)
        assert summary(picture.find(f"{SVG}title"))
        assert summary(picture.find(f"{SVG}desc"))
    main = next(iter(page.iter(f"{H}main")))
    after = [main[n + 1] for n, e in enumerate(main) if e.tag == f"{H}figure"]
    assert len(after) == len(pictures)
    assert all(next(e.iter(f"{H}table"), None) is not None for e in after)


def test_nothing_is_fetched_and_nothing_runs(page):
    tags = {str(e.tag).rpartition("}")[2] for e in page.iter()}
    assert not tags & {"script", "link", "img", "iframe", "object", "embed", "form", "base"}
    for element in page.iter():
        for name, value in element.attrib.items():
            assert not str(name).lower().startswith("on")
            assert name not in {"src", "href", "style"}
            assert "url(" not in value
    (rules,) = [e.get("content") for e in page.iter(f"{H}meta") if e.get("http-equiv")]
    assert "default-src 'none'" in rules
    assert "unsafe" not in rules


def test_hostile_text_is_shown_letter_for_letter_and_steering_codes_are_gone(hostile):
    page = parsed(hostile)
    for text in HOSTILE:
        assert [e for e in page.iter() if summary(e) == text], text
    assert [e for e in page.iter(f"{H}td") if summary(e) == CLEAN]
    assert not set("\u202e\u2066\x1b\x00") & set(as_html(hostile).decode())


def test_the_same_document_gives_the_same_bytes(sheet):
    assert as_html(sheet) == as_html(sheet)
    assert b"size: letter" in as_html(sheet, "letter")


def luminance(colour):
    """WCAG 2.2, relative luminance; from memory."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


@pytest.mark.parametrize("ink", ["ink", "quiet", "mark"])
@pytest.mark.parametrize("ground", ["#ffffff", "tint"])
def test_text_stands_out_from_what_it_is_on(ink, ground):
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", page_style())) | {"#ffffff": "#ffffff"}
    dark, light = luminance(colours[ink]), luminance(colours[ground])
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_only_wide_tables_of_text_are_unfolded_on_a_phone():
    text, figure = Column("a"), Column("n", Kind.COUNT)
    assert is_unfolded(Table("t", "t", (text,) * 6, ()))
    assert not is_unfolded(Table("t", "t", (text, *(figure,) * 6), ()))
    assert not is_unfolded(Table("t", "t", (text,) * 3, ()))
