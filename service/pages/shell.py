"""What a tablet keeps of the pages so that they open without a connection, and the tag that changes with any of it."""

from __future__ import annotations

import hashlib
from pathlib import Path

FOLDER = Path(__file__).parent
KEPT = (".css", ".js", ".mjs", ".svg", ".png", ".webmanifest")
NOT_KEPT = ("shelf.js", "label_form.js", "label_values.js", "embed")


def shell_files() -> list[str]:
    """The addresses of the static files that the pages of the counter and the kiosk are made of."""
    static = FOLDER / "static"
    files = (path for path in static.rglob("*") if path.suffix in KEPT and path.name not in NOT_KEPT)
    return sorted(f"/static/{path.relative_to(static)}" for path in files if "embed" not in path.parts)


def shell_tag() -> str:
    """A tag that changes whenever a page, a script or a word of the pages changes."""
    digest = hashlib.sha256()
    for path in sorted(FOLDER.rglob("*")):
        if path.is_file() and "__pycache__" not in path.parts:
            digest.update(str(path.relative_to(FOLDER)).encode() + b"\0" + path.read_bytes())
    return digest.hexdigest()[:16]
