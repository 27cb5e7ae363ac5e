"""`fruitwright serve`: check the settings, say where the pages are, and become the web server."""

from __future__ import annotations

import os
import sys

import click

from service.settings import CHECKOUT, Settings, read_settings


@click.command("serve")
@click.option("--info", is_flag=True, help="Only say where the pages are.")
def serve(info: bool) -> None:
    """Serve the API and the pages under gunicorn until the process is stopped."""
    settings = read_settings(os.environ)
    for line in places(settings):
        click.echo(line)
    if not info:
        sys.stdout.flush()
        arguments = [sys.executable, "-m", "gunicorn", "-c", str(CHECKOUT / "deploy" / "gunicorn.conf.py")]
        os.execv(sys.executable, [*arguments, "service.wsgi:app"])


def places(settings: Settings) -> tuple[str, ...]:
    """Where a person finds the service.

    >>> places(Settings())[0]
    'Counter page: http://127.0.0.1:8080/counter'
    """
    host = "127.0.0.1" if settings.host in ("0.0.0.0", "::") else settings.host
    address = f"http://{host}:{settings.port}"
    return (
        f"Counter page: {address}/counter",
        f"API docs:     {address}/docs",
        f"API document: {address}/openapi.json",
    )
