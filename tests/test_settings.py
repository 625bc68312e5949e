"""Settings: kept as TOML, read back as they were, and never overwritten when broken."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seasonboard.settings import Settings, SettingsError, read_settings, write_settings

TEXTS = st.text(st.characters(exclude_categories=("Cs",)), max_size=30)


def test_without_a_file_the_settings_are_those_of_a_new_start(tmp_path):
    assert read_settings(tmp_path / "none.toml") == Settings()


@given(store=TEXTS, season=TEXTS)
def test_what_is_written_is_toml_and_is_read_back(tmp_path_factory, store, season):
    """Read by Python's own TOML reader, whatever letters a path holds."""
    path = tmp_path_factory.mktemp("s") / "settings.toml"
    settings = Settings(store=store, season=season, theme="light", screen="roster")
    write_settings(path, settings)
    assert read_settings(path) == settings
    assert tomllib.loads(path.read_text("utf-8"))["store"] == store


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("theme = ", "Invalid value"),
        ('theme = "pink"', "expected dark or light or projector"),
        ("theme = 3", "theme is 3"),
        ('colour = "red"', "“colour” is no setting"),
        ("\x00", "not used"),
    ],
)
def test_a_broken_file_is_told_in_a_sentence_and_left_as_it_is(tmp_path, text, told):
    path = tmp_path / "settings.toml"
    path.write_text(text, "utf-8")
    with pytest.raises(SettingsError) as refused:
        read_settings(path)
    assert told in refused.value.what
    assert str(path) in refused.value.what
    assert refused.value.hint == "Mend the file or remove it."
    with pytest.raises(SettingsError):
        write_settings(path, Settings())
    assert path.read_text("utf-8") == text


def test_bytes_that_are_no_text_are_told(tmp_path):
    path = tmp_path / "settings.toml"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(SettingsError, match="not used"):
        read_settings(path)


def test_nothing_is_left_beside_the_file(tmp_path):
    path = tmp_path / "deep" / "settings.toml"
    write_settings(path, Settings())
    write_settings(path, Settings(theme="dark"))
    assert [each.name for each in path.parent.iterdir()] == ["settings.toml"]


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(SettingsError):
        write_settings(tmp_path / "file" / "settings.toml", Settings())
