"""Settings of a running bot, from a mapping of names to texts."""

import ipaddress
import re
import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import Annotated, Any, Literal, Self
from urllib.parse import urlsplit

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    SecretStr,
    ValidationError,
    model_validator,
)

PREFIX = "CADDIE_"
TOKEN_SHAPE = re.compile(r"\d{1,20}:[A-Za-z0-9_-]{10,100}")
SECRET_SHAPE = re.compile(r"[A-Za-z0-9_-]{16,256}")
LOCAL_NAMES = {"localhost"}


class SettingsError(Exception):
    """Settings that cannot be used; one line for each, with the name and what to give."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        self.lines = lines
        super().__init__("\n".join(lines))


def _listed(value: Any) -> Any:
    if isinstance(value, str):
        return [part for part in re.split(r"[\s,]+", value) if part]
    return value


def _loopback(host: str | None) -> bool:
    if host is None:
        return False
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return host in LOCAL_NAMES


class Settings(BaseModel):
    """Everything that can be set. Tokens and secrets are named by their files."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    data: Path | None = None
    token_file: Path | None = None
    api_url: str = "https://api.telegram.org"
    mode: Literal["polling", "webhook"] = "polling"
    listen: str = "127.0.0.1:8081"
    public_url: str | None = None
    secret_file: Path | None = None
    access: Literal["invited", "open"] = "invited"
    allowed: Annotated[tuple[int, ...], BeforeValidator(_listed)] = ()
    poll_seconds: int = Field(default=25, ge=0, le=50)
    sends_per_second: float = Field(default=25.0, gt=0, le=1000)
    sends_per_chat: float = Field(default=1.0, gt=0, le=1000, description="a second")
    sends_per_group: int = Field(default=20, ge=1, le=10_000, description="a minute")
    late_seconds: int = Field(default=300, ge=30)
    log: Literal["DEBUG", "INFO", "WARNING", "ERROR"] = "INFO"

    @model_validator(mode="after")
    def _check(self) -> Self:
        problems = [*_url_problems("api_url", self.api_url)]
        if self.mode == "webhook":
            if self.public_url is None:
                problems.append("public_url: webhook mode needs the address the platform calls")
            else:
                problems += _url_problems("public_url", self.public_url)
        if not self.listen.startswith("unix:") and not re.fullmatch(r"\S+:\d{1,5}", self.listen):
            problems.append("listen: give address:port or unix:/path")
        if problems:
            raise ValueError("; ".join(problems))
        return self

    @property
    def base_url(self) -> str:
        """Where the platform's methods are called; the token is appended to it."""
        return self.api_url.rstrip("/") + "/bot"

    @property
    def base_file_url(self) -> str:
        """Where the platform's files are fetched; the token is appended to it."""
        return self.api_url.rstrip("/") + "/file/bot"


def _url_problems(name: str, url: str) -> list[str]:
    parts = urlsplit(url)
    if parts.scheme == "https" and parts.hostname:
        return []
    if parts.scheme == "http" and _loopback(parts.hostname):
        return []
    return [f"{name}: give an https address (plain http only for this machine itself)"]


def read_settings(environment: Mapping[str, str], file: Path | None = None) -> Settings:
    """Settings from variables that begin with CADDIE_, over those of a TOML file.

    Raises `SettingsError` that names every setting that cannot be used.

    >>> read_settings({"CADDIE_MODE": "polling", "HOME": "/home/x"}).mode
    'polling'
    """
    given: dict[str, Any] = {}
    if file is not None:
        try:
            given = tomllib.loads(file.read_text("utf-8"))
        except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
            line = f"{file}: cannot be read as TOML ({error})"
            raise SettingsError((line,)) from error
    for name, value in environment.items():
        if name.startswith(PREFIX) and value != "":
            given[name.removeprefix(PREFIX).lower()] = value
    folder = environment.get("CREDENTIALS_DIRECTORY")
    if folder and "token_file" not in given and (Path(folder) / "token").exists():
        given["token_file"] = Path(folder) / "token"
    try:
        return Settings.model_validate(given)
    except ValidationError as error:
        raise SettingsError(tuple(_line(e) for e in error.errors())) from error


def _line(error: Any) -> str:
    name = PREFIX + "_".join(str(part) for part in error["loc"][:1]).upper()
    if error["type"] == "extra_forbidden":
        near = get_close_matches(str(error["loc"][0]), Settings.model_fields, n=1)
        hint = f"; did you mean {PREFIX}{near[0].upper()}?" if near else ""
        return f"{name}: there is no such setting{hint}"
    message = error["msg"].removeprefix("Value error, ")
    return f"{name}: {message}" if error["loc"] else message


def read_token(settings: Settings) -> SecretStr:
    """The bot's token from its file, which others must not be able to read."""
    return _secret_of(settings.token_file, "token_file", TOKEN_SHAPE, "digits, a colon, letters")


def read_secret(settings: Settings) -> SecretStr | None:
    """The webhook's secret from its file, or None where none is named."""
    if settings.secret_file is None:
        return None
    shape = "16 to 256 of A-Z a-z 0-9 _ -"
    return _secret_of(settings.secret_file, "secret_file", SECRET_SHAPE, shape)


def _secret_of(file: Path | None, name: str, shape: re.Pattern[str], words: str) -> SecretStr:
    label = PREFIX + name.upper()
    if file is None:
        line = f"{label}: name the file that holds it"
        raise SettingsError((line,))
    try:
        mode = file.stat().st_mode
        text = file.read_text("ascii").strip()
    except (OSError, UnicodeDecodeError) as error:
        line = f"{label}: {file} cannot be read"
        raise SettingsError((line,)) from error
    if mode & 0o007:
        line = f"{label}: {file} can be read by others: chmod 600 it"
        raise SettingsError((line,))
    if not shape.fullmatch(text):
        line = f"{label}: {file} does not hold one ({words})"
        raise SettingsError((line,))
    return SecretStr(text)
