"""What can be done from the command line?

Each command is one function that takes the parsed arguments and gives the exit status: 0 done, 1 not done, 2 refused
before anything was done.
"""

from __future__ import annotations

import argparse
import math
import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from ampwright.cli_catalogue import add_catalogue_commands, database_of
from ampwright.settings import BadSetting, Settings, read_settings, unknown_variables

Subparsers = argparse._SubParsersAction  # argparse has no public name for it


def main(arguments: Sequence[str] | None = None) -> int:
    """Entry point of ``ampwright``."""
    parser = argparse.ArgumentParser(prog="ampwright", description="Which tools run on which mobile power source.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    _add_demo(commands)
    _add_serve(commands)
    _add_migrate(commands)
    _add_keys(commands)
    add_catalogue_commands(commands)
    _add_openapi(commands)
    _add_bench(commands)
    parsed = parser.parse_args(arguments)
    try:
        status: int = parsed.run(parsed)
    except BadSetting as error:
        return _refuse(str(error))
    return status


def _refuse(reason: str) -> int:
    print(f"ampwright: {reason}", file=sys.stderr)
    return 2


def _add_demo(commands: Subparsers[argparse.ArgumentParser]) -> None:
    parser = commands.add_parser(
        "demo",
        help="show the service at work: invented catalogue, server on loopback, load checks, stop",
        description="Show the service at work in a temporary folder; nothing is left behind.",
    )
    parser.add_argument(
        "--stay",
        action="store_true",
        help="go on answering, on the port of AMPWRIGHT_PORT (8712), until interrupted: for trying the recipes",
    )
    parser.set_defaults(run=demo)


def demo(parsed: argparse.Namespace) -> int:
    """Run the main job once, end to end."""
    from ampwright.demo import run_demo

    return run_demo(read_settings().port if parsed.stay else None)


def _add_bench(commands: Subparsers[argparse.ArgumentParser]) -> None:
    from ampwright.bench.run import GROUPS

    parser = commands.add_parser(
        "bench",
        help="measure what things cost here: ratios and rates of one run",
        description="Measure what things cost on this machine. Prints ratios and rates of one run; nothing is kept.",
    )
    parser.add_argument("rows", nargs="*", metavar="ROWS", help=f"any of {', '.join(GROUPS)} (default: all)")
    parser.add_argument("--quick", action="store_true", help="fewer and smaller measurements")
    parser.add_argument(
        "--stored", type=Path, default=Path("tests"), metavar="FOLDER",
        help="folder of the tests, where the reference solver's answers lie (default: tests)",
    )  # fmt: skip
    parser.set_defaults(run=bench)


def bench(parsed: argparse.Namespace) -> int:
    """Measure and print."""
    from ampwright.bench.run import GROUPS, run_bench

    unknown = [name for name in parsed.rows if name not in GROUPS]
    if unknown:
        return _refuse(f"{unknown[0]} is none of {', '.join(GROUPS)}")
    return run_bench(parsed.rows, quick=parsed.quick, stored=parsed.stored)


def _add_serve(commands: Subparsers[argparse.ArgumentParser]) -> None:
    parser = commands.add_parser("serve", help="answer over HTTP", description="Answer over HTTP until stopped.")
    parser.add_argument("--host", help="address to listen on (default: AMPWRIGHT_HOST, 127.0.0.1)")
    parser.add_argument("--port", type=int, help="port to listen on (default: AMPWRIGHT_PORT, 8712)")
    parser.add_argument("--workers", type=int, help="processes behind the port (default: AMPWRIGHT_WORKERS, 1)")
    parser.add_argument("--migrate", action="store_true", help="bring the database up to this version first")
    parser.set_defaults(run=serve)


def serve(parsed: argparse.Namespace) -> int:
    """Serve until a signal stops it."""
    import uvicorn

    from ampwright.api.access import may_be_open
    from ampwright.api.log_lines import LOGGING

    given = {"HOST": parsed.host, "PORT": parsed.port, "WORKERS": parsed.workers}
    # Through the environment, because each worker reads its settings for itself.
    os.environ.update({f"AMPWRIGHT_{name}": str(value) for name, value in given.items() if value is not None})
    settings = read_settings()
    for variable in unknown_variables():
        print(f"ampwright: {variable} is not a setting", file=sys.stderr)
    if parsed.migrate:
        from ampwright.catalogue.migrate import upgrade

        upgrade(settings.database_url)
    if not (may_be_open(settings) or _has_live_key(settings)):
        return _refuse(
            f"{settings.host} can be reached by others and no access key exists: make one with ampwright keys make, "
            "or set AMPWRIGHT_ALLOW_OPEN_ADDRESS=yes where something in front of the service keeps strangers out"
        )
    if settings.workers > 1 and not _kernels_made():
        print("ampwright: the kernels could not be compiled", file=sys.stderr)
        return 1
    uvicorn.run(
        "ampwright.worker:make_app",
        factory=True,
        host=settings.host,
        port=settings.port,
        workers=settings.workers,
        http="ampwright.api.unreadable:ReadingProtocol",  # httptools
        loop="uvloop" if sys.platform != "win32" else "asyncio",
        ws="none",
        lifespan="on",
        # Without a limit, one open stream keeps a stopped process alive for ever.
        timeout_graceful_shutdown=math.ceil(settings.shutdown_grace_s),
        proxy_headers=False,
        server_header=False,
        access_log=False,
        log_config=LOGGING,
    )
    return 0


def _kernels_made() -> bool:
    """Compile the kernels in a process of its own, where they are not in their cache yet.

    Workers that start together would each compile, and only one result is kept. A single worker does it for itself:
    with all in the cache this takes as long as its own start, and would double that.
    """
    made = subprocess.run([sys.executable, "-c", "import ampwright.app; ampwright.app.warm_kernels()"], check=False)
    return made.returncode == 0


def _has_live_key(settings: Settings) -> bool:
    from ampwright.catalogue.faults import DatabaseUnavailable
    from ampwright.catalogue.keys import KeyRing

    database = database_of(settings)
    try:
        return KeyRing(database).any_live()
    except DatabaseUnavailable:
        return False
    finally:
        database.close()


def _add_keys(commands: Subparsers[argparse.ArgumentParser]) -> None:
    from ampwright.catalogue.keys import SCOPES

    parser = commands.add_parser("keys", help="make, list and revoke access keys", description="Access keys.")
    actions = parser.add_subparsers(dest="action", required=True, metavar="ACTION")
    make = actions.add_parser("make", help="make a key; its text is shown once")
    make.add_argument("--scope", action="append", required=True, choices=SCOPES, help="what it is for; may be repeated")
    make.add_argument("--note", required=True, help="whose key this is")
    make.add_argument("--by", required=True, help="who makes it")
    make.add_argument("--expires", help="when it ends, as 2027-01-31T00:00:00Z (RFC 3339)")
    actions.add_parser("list", help="list all keys, without their secrets")
    revoke = actions.add_parser("revoke", help="revoke a key for good; workers follow within a second")
    revoke.add_argument("id", help="the twelve digits after ampw_")
    revoke.add_argument("--by", required=True, help="who revokes it")
    parser.set_defaults(run=keys)


def keys(parsed: argparse.Namespace) -> int:
    """Make, list or revoke access keys in the database of the settings."""
    from ampwright.catalogue.faults import CatalogueError
    from ampwright.catalogue.keys import list_keys, make_key, revoke_key

    database = database_of(read_settings())
    try:
        if parsed.action == "make":
            expires_at = datetime.fromisoformat(parsed.expires) if parsed.expires else None
            if expires_at is not None and expires_at.tzinfo is None:
                return _refuse("--expires needs its offset from UTC, such as Z")
            made = make_key(database, scopes=parsed.scope, note=parsed.note, who=parsed.by, expires_at=expires_at)
            print(made.text)
        elif parsed.action == "revoke":
            revoke_key(database, parsed.id, who=parsed.by)
        else:
            for key in list_keys(database):
                state = "revoked" if key.revoked_at else f"until {key.expires_at or 'revoked'}"
                print(f"{key.id}  {' '.join(key.scopes)}  {state}  {key.note}")
    except (CatalogueError, ValueError) as error:
        return _refuse(str(error))
    finally:
        database.close()
    return 0


def _add_migrate(commands: Subparsers[argparse.ArgumentParser]) -> None:
    parser = commands.add_parser(
        "migrate",
        help="bring the database up to this version",
        description="Bring the database of AMPWRIGHT_DATABASE_URL up to this version.",
    )
    parser.add_argument("--database-url", help="another database than the one of the settings")
    parser.set_defaults(run=migrate)


def migrate(parsed: argparse.Namespace) -> int:
    """Apply the migrations that are missing."""
    from ampwright.catalogue.migrate import newest_revision, upgrade

    upgrade(_settings(parsed).database_url)
    print(f"The database is at revision {newest_revision()}.")
    return 0


def _settings(parsed: argparse.Namespace) -> Settings:
    settings = read_settings()
    return replace(settings, database_url=parsed.database_url) if parsed.database_url else settings


def _add_openapi(commands: Subparsers[argparse.ArgumentParser]) -> None:
    parser = commands.add_parser(
        "openapi", help="print the OpenAPI document", description="Print the OpenAPI document of this version."
    )
    parser.add_argument("--output", type=Path, help="write it to this file instead")
    parser.add_argument("--check", type=Path, help="compare it with this file instead; status 1 where they differ")
    parser.set_defaults(run=openapi)


def openapi(parsed: argparse.Namespace) -> int:
    """Print, write or compare the document."""
    from ampwright.app import document

    content = document()
    if parsed.check is not None:
        if parsed.check.is_file() and parsed.check.read_bytes() == content:
            return 0
        print(f"{parsed.check} is not the document of this version: run ampwright openapi --output", file=sys.stderr)
        return 1
    if parsed.output is not None:
        parsed.output.write_bytes(content)
    else:
        sys.stdout.buffer.write(content)
    return 0


if __name__ == "__main__":
    sys.exit(main())
