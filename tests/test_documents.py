"""README and DEVELOPERS tell what there is."""

import re
import tomllib
from pathlib import Path

from seasonboard.cli.main import cli
from seasonboard.scope import PARTS

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def test_readme_names_every_command_and_scope_option():
    for name in cli.commands:
        assert f"seasonboard {name}" in README
    for part in PARTS:
        assert f"--{part.replace(' ', '-')}" in README


def test_readme_has_two_set_up_commands_and_ci_runs_the_second():
    commands = re.findall(r"^python3 -m venv .*$", README, flags=re.MULTILINE)
    first, second = commands
    assert first.endswith("seasonboard --sample")
    install = second.removesuffix(" && .venv/bin/pytest")
    ci = (ROOT / ".ci" / "run").read_text("utf-8")
    assert install in ci
    assert ".venv/bin/pytest" in ci


def test_pictures_and_places_that_the_documents_name_exist():
    for picture in re.findall(r"!\[[^\]]*\]\(([^)]+)\)", README):
        assert (ROOT / picture).is_file()
    for path in re.findall(r"`((?:seasonboard|queries|tests)/[\w/.]+)`", DEVELOPERS):
        assert (ROOT / path).exists(), path


def test_every_dependency_has_its_reason():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    names = [re.split(r"[><=\[]", line)[0] for line in project["dependencies"]]
    names += [re.split(r"[><=\[]", line)[0] for line in project["optional-dependencies"]["test"]]
    for name in names:
        assert name in DEVELOPERS, name


def test_readme_lists_every_table_and_column():
    from seasonboard.stored_tables import TABLES

    for table in TABLES.values():
        assert f"| {table.name} |" in README
        (line,) = [li for li in README.splitlines() if li.startswith(f"| {table.name} |")]
        for column in table.columns:
            assert column.name in line, (table.name, column.name)
