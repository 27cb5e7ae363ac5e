"""Every setting of the service in one table, read from the environment and checked at start.

A value that cannot be used stops the start with a sentence, and so does a name that nobody knows.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from service.domain.errors import FruitwrightError

PREFIX = "FRUITWRIGHT_"
FOR_THE_SCRIPTS = {"FRUITWRIGHT_VENV"}
CHECKOUT = Path(__file__).resolve().parent.parent
DEMO_DATABASE = f"sqlite:///{CHECKOUT / 'var' / 'fruitwright.sqlite3'}"


class SettingsFault(FruitwrightError):
    """One or more settings cannot be used; the message has a line for each."""


def _whole(low: int, high: int) -> Callable[[str], int]:
    def read(text: str) -> int:
        if not text.isascii() or not text.isdigit() or not low <= int(text) <= high:
            raise ValueError(f"a whole number from {low} to {high}")
        return int(text)

    return read


def _word(*words: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text not in words:
            raise ValueError("one of " + ", ".join(words))
        return text

    return read


def _folder(text: str) -> Path:
    if not Path(text).is_dir():
        raise ValueError("a folder that exists")
    return Path(text).resolve()


def _file_or_none(text: str) -> Path | None:
    if text == "none":
        return None
    if not Path(text).is_file():
        raise ValueError("a file that exists, or none")
    return Path(text).resolve()


def _database(text: str) -> str:
    if not text.startswith(("sqlite:///", "postgresql://", "postgresql+psycopg://")):
        raise ValueError("an address that starts with sqlite:/// or postgresql://")
    return text.replace("postgresql://", "postgresql+psycopg://", 1)


def _address(text: str) -> str:
    if not re.fullmatch(r"https?://[A-Za-z0-9.:\[\]-]+(/[A-Za-z0-9._~/-]*)?", text):
        raise ValueError("an address such as https://trees.example")
    return text.rstrip("/")


def _zone(text: str) -> str:
    try:
        return ZoneInfo(text).key
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise ValueError("a time zone such as America/Los_Angeles") from None


def _listed(read: Callable[[str], str]) -> Callable[[str], tuple[str, ...]]:
    def read_all(text: str) -> tuple[str, ...]:
        return tuple(dict.fromkeys(read(one) for one in text.replace(",", " ").split()))

    return read_all


def _origin(text: str) -> str:
    if not re.fullmatch(r"https?://([a-z0-9.-]+|\[[0-9a-f:]+\])(:[0-9]{1,5})?", text):
        raise ValueError("origins such as https://kiosk.example, separated by commas")
    return text


def _kiosk_key(text: str) -> str:
    if not re.fullmatch(r"[a-z0-9-]{1,40}:[0-9a-f]{64}", text):
        raise ValueError("names with hashes as `fruitwright kiosk key` prints them, separated by commas")
    return text


def _says(read: Callable[[str], Any], meaning: str, *, name: str = "", secret: bool = False) -> dict[str, Any]:
    return {"read": read, "meaning": meaning, "name": name, "secret": secret}


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings that the service runs with; see `table` for what each means."""

    rules: Path = field(default=CHECKOUT / "rules", metadata=_says(_folder, "Folder of the rulebook."))
    store_rules: Path | None = field(
        default=None, metadata=_says(_folder, "Folder of a store's own rules, laid over the rulebook.")
    )
    store_climate: Path | None = field(
        default=CHECKOUT / "rules" / "demo" / "climate.yaml",
        metadata=_says(
            _file_or_none,
            "File of the climate that staff reckon with where a customer knows nothing of theirs, or none.",
        ),
    )
    matcher: str = field(
        default="both",
        metadata=_says(
            _word("both", "engine", "plain"),
            "Which matcher judges: engine (durable_rules), plain, or both (engine answers, plain sweeps).",
        ),
    )
    database_url: str = field(
        default=DEMO_DATABASE,
        metadata=_says(
            _database, "Database of the store's own records: a SQLite file or a PostgreSQL database.", secret=True
        ),
    )
    public_address: str | None = field(
        default=None,
        metadata=_says(
            _address,
            "Address under which customers reach the service with their phones, for links that they take home; "
            "without it, the address that the page was asked under.",
        ),
    )
    hand_out_days: int = field(
        default=30, metadata=_says(_whole(1, 366), "Days after which a hand-out is deleted.")
    )
    time_zone: str | None = field(
        default=None,
        metadata=_says(_zone, "Time zone of the store, which ends its day; without it, that of the machine."),
    )
    kiosk_idle_seconds: int = field(
        default=90, metadata=_says(_whole(40, 1800), "Seconds without a touch after which the kiosk page starts over.")
    )
    kiosk_origins: tuple[str, ...] = field(
        default=(),
        metadata=_says(_listed(_origin), "Origins of a store's own kiosk pages, whose browsers may ask with a key."),
    )
    kiosk_keys: tuple[str, ...] = field(
        default=(),
        metadata=_says(
            _listed(_kiosk_key),
            "Names of kiosks with the hashes of their keys; `fruitwright kiosk key` makes one.",
            secret=True,
        ),
    )
    host: str = field(default="127.0.0.1", metadata=_says(str, "Address to listen on."))
    port: int = field(default=8080, metadata=_says(_whole(1, 65535), "Port to listen on.", name="PORT"))
    workers: int = field(default=2, metadata=_says(_whole(1, 64), "Web processes."))
    threads: int = field(default=4, metadata=_says(_whole(1, 64), "Threads of each web process."))
    request_seconds: int = field(
        default=30, metadata=_says(_whole(1, 600), "Seconds after which a silent web process is replaced.")
    )
    max_body_bytes: int = field(
        default=33_554_432, metadata=_says(_whole(1024, 1_073_741_824), "Largest request body, in bytes.")
    )
    trusted_proxies: int = field(
        default=0, metadata=_says(_whole(0, 5), "Proxies in front whose X-Forwarded headers are believed.")
    )
    log_level: str = field(
        default="info",
        metadata=_says(_word("debug", "info", "warning", "error"), "Least severe log line that is kept."),
    )
    log_format: str = field(default="json", metadata=_says(_word("json", "text"), "Form of the log lines."))


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table of settings."""

    name: str
    type: str
    default: str
    meaning: str
    secret: bool


def table() -> tuple[Row, ...]:
    """Every setting as environment variable: name, type, default, meaning, and whether it is a secret."""
    return tuple(
        Row(_variable(item), _type_of(item), _default_of(item), item.metadata["meaning"], item.metadata["secret"])
        for item in fields(Settings)
    )


def read_settings(environment: Mapping[str, str]) -> Settings:
    """The settings of an environment; raises SettingsFault with a line for each that cannot be used."""
    known = {_variable(item): item for item in fields(Settings)}
    faults = [_unknown(name, list(known)) for name in sorted(environment) if _is_stray(name, known)]
    values: dict[str, Any] = {}
    for name, item in known.items():
        given = environment.get(name, "")
        if given:
            try:
                values[item.name] = item.metadata["read"](given)
            except ValueError as wanted:
                faults.append(f"{name} must be {wanted}" + ("." if item.metadata["secret"] else f", not '{given}'."))
    if faults:
        raise SettingsFault("\n".join(faults))
    return Settings(**values)


def shown(settings: Settings) -> tuple[tuple[str, str], ...]:
    """Names and values for a person to see; secrets are hidden."""
    return tuple(
        (_variable(item), "(hidden)" if item.metadata["secret"] else _as_text(getattr(settings, item.name)))
        for item in fields(Settings)
    )


def _is_stray(name: str, known: Mapping[str, object]) -> bool:
    return name.startswith(PREFIX) and name not in known and name not in FOR_THE_SCRIPTS


def _unknown(name: str, names: list[str]) -> str:
    near = difflib.get_close_matches(name, names, n=1)
    return f"{name} is no setting of this service" + (f"; did you mean {near[0]}?" if near else ".")


def _variable(item: Any) -> str:
    return str(item.metadata["name"] or PREFIX + item.name.upper())


def _type_of(item: Any) -> str:
    told = str(item.type).replace("tuple[str, ...]", "list").replace("Path", "folder")
    return told.replace("int", "whole number").replace("str", "text")


def _default_of(item: Any) -> str:
    return "" if item.default is None else _as_text(item.default).replace(str(CHECKOUT) + "/", "")


def _as_text(value: object) -> str:
    return ", ".join(value) if isinstance(value, tuple) else str(value)
