"""What a load is doing stands on one line of a real terminal, and goes."""

import os
import sys

import pexpect
import pyte

from tests.conftest import ROOT
from tests.patience import PATIENCE


def test_steps_are_shown_in_turn_and_leave_nothing_behind(tmp_path):
    tables = tmp_path / "tables"
    tables.mkdir()
    head = "department,name,plan,time_zone\n"
    rows = "".join(f"D{n},North,onsite printer,UTC\n" for n in range(5000))
    (tables / "departments.csv").write_text(head + rows)
    words = ["-m", "seasonboard", "load", str(tables), "--store", str(tmp_path / "s.store")]
    env = {**os.environ, "PYTHONPATH": str(ROOT), "XDG_CONFIG_HOME": str(tmp_path)}
    child = pexpect.spawn(
        sys.executable, [*words, "--yes"], env=env, dimensions=(30, 100), encoding="utf-8"
    )
    child.expect(pexpect.EOF, timeout=PATIENCE)
    assert "reading departments.csv …" in child.before
    assert child.before.index("checking departments") < child.before.index("writing")
    screen = pyte.Screen(100, 30)
    pyte.Stream(screen).feed(child.before)
    shown = [line.rstrip() for line in screen.display if line.strip()]
    assert [line.split()[0] for line in shown] == ["table", "departments", "Written"]
