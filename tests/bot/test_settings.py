"""Settings that cannot be used are named, each with what to give instead."""

from pathlib import Path

import pytest

from bot.settings import Settings, SettingsError, read_secret, read_settings, read_token

ROOT = Path(__file__).parents[2]


def test_nothing_set_is_polling_by_invitation() -> None:
    made = read_settings({"HOME": "/x", "PATH": "/y"})
    assert (made.mode, made.access, made.base_url) == (
        "polling",
        "invited",
        "https://api.telegram.org/bot",
    )


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"CADDIE_MOD": "polling"}, "did you mean CADDIE_MODE?"),
        ({"CADDIE_MODE": "pol"}, "CADDIE_MODE"),
        ({"CADDIE_MODE": "webhook"}, "public_url"),
        ({"CADDIE_MODE": "webhook", "CADDIE_PUBLIC_URL": "http://x.example"}, "https"),
        ({"CADDIE_API_URL": "http://198.51.100.7"}, "https"),
        ({"CADDIE_API_URL": "ftp://x"}, "https"),
        ({"CADDIE_LISTEN": "here"}, "address:port"),
        ({"CADDIE_POLL_SECONDS": "51"}, "CADDIE_POLL_SECONDS"),
        ({"CADDIE_POLL_SECONDS": "soon"}, "CADDIE_POLL_SECONDS"),
        ({"CADDIE_ALLOWED": "Ann"}, "CADDIE_ALLOWED"),
        ({"CADDIE_SENDS_PER_SECOND": "0"}, "CADDIE_SENDS_PER_SECOND"),
        ({"CADDIE_LOG": "LOUD"}, "CADDIE_LOG"),
    ],
)
def test_what_cannot_be_used_is_named(given: dict[str, str], told: str) -> None:
    with pytest.raises(SettingsError) as refused:
        read_settings(given)
    assert told in str(refused.value)


def test_several_mistakes_are_told_at_once() -> None:
    with pytest.raises(SettingsError) as refused:
        read_settings({"CADDIE_MODE": "x", "CADDIE_ACCESS": "y"})
    assert len(refused.value.lines) == 2


def test_ids_may_be_separated_by_anything_usual() -> None:
    assert read_settings({"CADDIE_ALLOWED": "7, 8 9"}).allowed == (7, 8, 9)
    assert read_settings({"CADDIE_ALLOWED": ""}).allowed == ()


def test_a_file_gives_settings_and_the_environment_has_the_last_word(tmp_path: Path) -> None:
    file = tmp_path / "caddie.toml"
    file.write_text('mode = "polling"\nallowed = [7]\nlate_seconds = 60\n')
    made = read_settings({"CADDIE_LATE_SECONDS": "90"}, file)
    assert (made.allowed, made.late_seconds) == ((7,), 90)
    file.write_text("mode = [")
    with pytest.raises(SettingsError, match="TOML"):
        read_settings({}, file)


def test_plain_http_is_for_this_machine_only() -> None:
    assert read_settings({"CADDIE_API_URL": "http://127.0.0.1:9"}).api_url == "http://127.0.0.1:9"
    assert read_settings({"CADDIE_API_URL": "http://[::1]:9"}).base_url == "http://[::1]:9/bot"


@pytest.mark.parametrize(
    ("content", "mode", "told"),
    [
        ("4200:abcdefghij", 0o644, "chmod 600"),
        ("not a token", 0o600, "does not hold one"),
        ("4200:abc déf", 0o600, "cannot be read"),
        ("", 0o600, "does not hold one"),
        (None, 0o600, "cannot be read"),
    ],
)
def test_a_token_that_cannot_be_used(
    tmp_path: Path, content: str | None, mode: int, told: str
) -> None:
    file = tmp_path / "token"
    if content is not None:
        file.write_text(content)
        file.chmod(mode)
    with pytest.raises(SettingsError, match=told) as refused:
        read_token(Settings(token_file=file))
    assert "abcdefghij" not in str(refused.value)


def test_a_token_and_a_secret_are_read_from_their_files(tmp_path: Path) -> None:
    token, secret = tmp_path / "token", tmp_path / "secret"
    token.write_text("4200:abcdefghij\n")
    secret.write_text("0123456789abcdef")
    token.chmod(0o600)
    secret.chmod(0o600)
    made = Settings(token_file=token, secret_file=secret)
    assert read_token(made).get_secret_value() == "4200:abcdefghij"
    assert read_secret(made) is not None
    assert "abcdefghij" not in repr(read_token(made))
    assert read_secret(Settings()) is None
    with pytest.raises(SettingsError, match="CADDIE_TOKEN_FILE"):
        read_token(Settings())


def test_the_service_manager_hands_the_token_over(tmp_path: Path) -> None:
    (tmp_path / "token").write_text("4200:abcdefghij")
    made = read_settings({"CREDENTIALS_DIRECTORY": str(tmp_path)})
    assert made.token_file == tmp_path / "token"


def test_every_setting_of_the_example_exists() -> None:
    lines = (ROOT / "deploy" / "env.example").read_text().splitlines()
    names = {
        line.lstrip("#").partition("=")[0].removeprefix("CADDIE_").lower()
        for line in lines
        if line.lstrip("#").startswith("CADDIE_")
    }
    assert names <= set(Settings.model_fields)
    assert set(Settings.model_fields) - names == {"poll_seconds"}
