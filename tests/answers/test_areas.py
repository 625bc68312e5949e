"""Several body areas side by side: each as if asked alone, and p-values that allow for the many."""

import json

import pytest

pytestmark = pytest.mark.long  # each walks over the whole sample season, as a command


@pytest.fixture(scope="module")
def ask(run, sample_store):
    def ask(*options):
        done = run("ask", "compare", "--store", sample_store, "--format", "json", *options)
        assert done.status == 0, done.err
        return json.loads(done.out)

    return ask


def test_each_area_is_the_headline_of_that_area_alone(ask):
    together = {each["area"]: each for each in ask()["areas"]}
    assert len(together) > 2
    for area in ("lower leg", "hand"):
        alone = ask("--area", area)
        headline = next(c for c in alone["comparisons"] if c["comparison"] == "same session")
        assert alone["areas"] == []  # one area is no choice among several
        for name in ("rate_ratio", "low", "high", "p", "injuries_guarded", "injuries_unguarded"):
            assert together[area][name] == pytest.approx(headline[name]), (area, name)


def test_looking_at_many_makes_none_look_better_and_the_answer_says_so(ask):
    found = ask()
    told = [each for each in found["areas"] if each["p_adjusted"] is not None]
    assert all(each["p_adjusted"] >= each["p"] for each in told)
    assert any(f"{len(told)} body areas are looked at side by side" in c for c in found["caveats"])
    silent = [each for each in found["areas"] if each["p_adjusted"] is None]
    assert all(each["why"] for each in silent)
