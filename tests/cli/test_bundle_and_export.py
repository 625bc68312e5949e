"""Two places, one season, by the command line."""

import pytest
from click.testing import CliRunner

from seasonboard.cli.main import cli
from seasonboard.wiring import make_tools
from tests.bundles.pair import TEAMS
from tests.conftest import Done


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    """Run a command in this process, with a home of its own."""
    home = str(tmp_path_factory.mktemp("home"))

    def run_it(*words):
        runner = CliRunner(env={"HOME": home, "XDG_CONFIG_HOME": home})
        done = runner.invoke(cli, [*map(str, words)], obj={"tools": make_tools()})
        return Done(done.exit_code, done.stdout, done.stderr)

    return run_it


@pytest.fixture(scope="module")
def season(run, tmp_path_factory):
    folder = tmp_path_factory.mktemp("season")
    for name, text in TEAMS.items():
        (folder / f"{name}.csv").write_text(text)
    assert run("load", folder, "--store", folder / "maker.duckdb", "--yes").status == 0
    return folder


@pytest.mark.long
def test_a_bundle_goes_from_store_to_store(run, season, tmp_path):
    bundle, trainer = tmp_path / "week.bundle", tmp_path / "trainer.duckdb"
    made = run("bundle", bundle, "--store", season / "maker.duckdb")
    assert made.status == 0, made.err
    assert "roster              3         0" in made.out
    assert f"All from the first load up to load 1.\nWritten to {bundle}." in made.out
    taken = run("load", bundle, "--store", trainer, "--yes")
    assert taken.status == 0, taken.err
    assert "roster              3         0         0  week.bundle › roster" in taken.out
    assert f"Written to {trainer}." in taken.out
    again = run("load", bundle, "--store", trainer)
    assert "are there already." in again.out
    (tmp_path / "teams.csv").write_text(TEAMS["teams"].replace("soccer", "judo"))
    run("load", tmp_path / "teams.csv", "--store", trainer, "--yes")
    nothing = run("bundle", bundle, "--store", trainer, "--since", "2")
    assert nothing.out.startswith("No row is new or changed since load 2; the last load is 2.\n")
    undone = run("undo", "--store", trainer, "--yes")
    assert "Taken back" in undone.out


def test_conflicts_are_listed_with_status_2(run, season, tmp_path):
    stores = {}
    for name in ("judo", "golf"):
        stores[name] = tmp_path / f"{name}.duckdb"
        stores[name].write_bytes((season / "maker.duckdb").read_bytes())
        (tmp_path / "teams.csv").write_text(TEAMS["teams"].replace("soccer", name))
        run("load", tmp_path / "teams.csv", "--store", stores[name], "--yes")
    bundle = tmp_path / "out.bundle"
    run("bundle", bundle, "--store", stores["judo"], "--since", "1")
    refused = run("load", bundle, "--store", stores["golf"], "--yes")
    assert refused.status == 2
    assert "was “soccer”; here it is “golf”" in refused.err
    assert "--keep mine" in refused.err
    both = run("load", bundle, "--store", stores["golf"], "--keep", "mine", "--newest-wins")
    assert (both.status, "exclude each other" in both.err) == (2, True)
    decided = run("load", bundle, "--store", stores["golf"], "--yes", "--keep", "theirs")
    assert decided.status == 0, decided.err
    assert "The value there is taken." in decided.out


def test_an_export_is_written_and_loads_back(run, season, tmp_path):
    store = season / "maker.duckdb"
    done = run("export", tmp_path / "out", "--store", store, "--format", "xlsx")
    assert done.status == 0, done.err
    assert "roster              3  season.xlsx" in done.out
    again = run("load", tmp_path / "out", "--store", store)
    assert "are there already." in again.out
    refused = run("export", tmp_path / "out", "--store", store)
    assert (refused.status, "--force" in refused.err) == (2, True)


@pytest.mark.parametrize(
    ("words", "summary"),
    [
        (("bundle", "x.bundle", "--store", "/nowhere/x.duckdb"), "no store at"),
        (("bundle", "x.zip", "--store", "x.duckdb"), "is not a name for a bundle"),
        (("--sample", "bundle", "x.bundle"), "--sample does not go with bundle"),
        (("--sample", "export", "out"), "--sample does not go with export"),
        (("export", "out", "--store", "/nowhere/x.duckdb"), "no store at"),
    ],
)
def test_a_wrong_request_is_told(run, words, summary):
    done = run(*words)
    assert (done.status, summary in done.err) == (2, True)
