"""README and DEVELOPERS tell what there is, briefly."""

import re
import tomllib
from pathlib import Path

import pytest

from seasonboard.answers.questions import QUESTIONS
from seasonboard.help.generated import questions_markdown

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
DECISIONS = sorted((ROOT / ".decisions").iterdir())


def test_readme_is_read_in_ten_minutes():
    assert len(README.splitlines()) <= 120
    assert len(README.split()) <= 1500
    assert len(DEVELOPERS.splitlines()) < 200


def test_readme_lists_every_question_with_its_key():
    table = questions_markdown()
    assert all(f"| {question.asks} | `{question.name}` |" in table for question in QUESTIONS)
    assert f"\n\n{table}\n\n" in README


def test_readme_has_two_set_up_commands_and_ci_runs_the_second():
    commands = re.findall(r"^python3 -m venv .*$", README, flags=re.MULTILINE)
    first, second = commands
    assert first.endswith("seasonboard --sample")
    install = second.removesuffix(" && .venv/bin/pytest")
    ci = (ROOT / ".ci" / "run").read_text("utf-8")
    assert install in ci
    assert ".venv/bin/pytest" in ci


def test_pictures_and_files_that_the_documents_name_exist():
    pictures = re.findall(r"!\[[^\]]*\]\(([^)]+)\)", README)
    assert len(pictures) == 1
    assert [str(path.relative_to(ROOT)) for path in (ROOT / ".images").iterdir()] == pictures
    links = re.findall(r"(?<!!)\[[^\]]*\]\(([^)]+)\)", README)
    named = re.findall(r"`((?:seasonboard|queries|tests)/[\w/.]+)`", DEVELOPERS)
    listed = re.findall(r"^((?:seasonboard|queries|tests)/[\w/.]*) ", DEVELOPERS, re.MULTILINE)
    assert len(listed) > 20
    missing = [path for path in [*links, *named, *listed] if not (ROOT / path).exists()]
    assert missing == []


def test_modules_that_the_glossary_names_exist():
    glossary = DEVELOPERS.partition("## Words")[2].partition("## Recipes")[0]
    modules = re.findall(r"`(\w+\.py)`", glossary)
    there = {path.name for path in (ROOT / "seasonboard").rglob("*.py")}
    assert modules
    assert [name for name in modules if name not in there] == []


def test_every_dependency_has_its_reason():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    optional = project["optional-dependencies"]
    lines = [*project["dependencies"], *optional["test"], *optional["holidays"]]
    names = [re.split(r"[><=\[]", line)[0] for line in lines]
    reasons = DEVELOPERS.partition("## What we depend on")[2]
    assert [name for name in names if name not in reasons] == []


def test_decisions_are_numbered_without_a_gap():
    assert [path.name[:4] for path in DECISIONS] == [
        f"{number:04}" for number in range(1, len(DECISIONS) + 1)
    ]


@pytest.mark.parametrize("path", DECISIONS, ids=lambda path: path.stem)
def test_a_decision_is_short_and_says_when_and_what(path):
    title, empty, *text = path.read_text("utf-8").splitlines()
    assert title.startswith("# ")
    assert empty == ""
    assert re.match(r"20\d\d-\d\d-\d\d\. \S", text[0])
    assert len(text) <= 5
