"""The command `triage`: a thin skin of click over the session and the screens."""

from __future__ import annotations

import gc

gc.set_threshold(100_000, 20, 50)  # a command makes many lasting records and little waste: a tenth of the start-up

import contextlib  # noqa: E402
import importlib  # noqa: E402
import os  # noqa: E402
import sys  # noqa: E402
from io import TextIOWrapper  # noqa: E402
from typing import NoReturn  # noqa: E402

import click  # noqa: E402

from ..errors import KnowledgeError, TriageError  # noqa: E402

#: Each command's module; only the one called is imported.
COMMANDS: dict[str, tuple[str, str]] = {
    "setup": ("setup", "Say once what you have: water, animals, crops, beds, top-up water."),
    "plant": ("plant", "Answer a few questions beside a plant; get causes, the deciding check, responses."),
    "spray": ("spray", "May I use this near my fish?"),
    "water": ("water", "Record readings, look at them, check numbers, find out why pH drifts."),
    "dose": ("dose", "How much to add, in steps the animals bear, and what else it does."),
    "today": ("today", "What is due: looks, next steps, tests, harvest waits."),
    "garden": ("garden", "The garden as one: what spreads, what comes back, what proven cases taught."),
    "case": ("case", "Look at saved cases; say what was done and how it ended."),
    "journal": ("journal", "Back up, export, import and check the file that keeps everything."),
    "book": ("book", "Check, search and show the knowledge and its sources."),
    "demo": ("demo", "Play the demo on a throw-away home."),
}

#: Where a platform says its language; the first that says something counts.
LOCALE = ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")


class LazyGroup(click.Group):
    """A group that imports a command when it is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in COMMANDS:
            return None
        module = importlib.import_module(f".{COMMANDS[name][0]}", __package__)
        command: click.Command = getattr(module, name)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, says) for name, (_, says) in COMMANDS.items()])

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in COMMANDS:
            raise click.UsageError(f"no command '{args[0]}' (allowed: {', '.join(COMMANDS)})")
        return super().resolve_command(ctx, args)


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="triage")
@click.option("--home", type=click.Path(file_okay=False), help="Where the journal and your own knowledge live.")
@click.option("--language", help="Language of screens and questions, such as de; else that of your locale.")
@click.option(
    "--plain", is_flag=True, envvar="TRIAGE_PLAIN",
    help="For screen readers: no colours, no pictures, words for signs (or set TRIAGE_PLAIN=1).",
)  # fmt: skip
@click.pass_context
def triage(ctx: click.Context, home: str | None, language: str | None, plain: bool) -> None:
    """What is wrong with this plant, what would settle it, and what the fish survive.

    Example: triage plant --from demo/iron.yaml
    """
    ctx.ensure_object(dict)
    ctx.obj["home"] = home
    ctx.obj["plain"] = plain
    ctx.obj["language"] = _language(language)


def _language(said: str | None) -> str:
    """The language to read in; '' is English. A locale that asks for nothing else costs no import."""
    locale = next((os.environ[name] for name in LOCALE if os.environ.get(name)), "")
    if (said or locale).split("_")[0].split(".")[0].lower() in ("", "c", "posix", "en"):
        return ""
    from .common import home_folder
    from .language import choose_language

    return choose_language(said, locale, home_folder(None) / "knowledge")


def main() -> None:
    """Run the command line; every error becomes one clear line and exit code 2, never a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that knows no degree sign still gets its answer
    try:
        code = triage.main(prog_name="triage", standalone_mode=False)
        sys.stdout.flush()
        sys.exit(code if isinstance(code, int) else 0)
    except click.exceptions.Exit as done:
        sys.exit(done.exit_code)
    except (click.Abort, KeyboardInterrupt):
        _say("stopped; everything told so far is kept")
        sys.exit(130)
    except click.ClickException as error:
        where = getattr(getattr(error, "ctx", None), "command_path", "triage")
        _say(f"{error.format_message().rstrip('.')} (help: {where} --help)")
        sys.exit(2)
    except KnowledgeError as error:
        for fault in error.faults:
            click.echo(str(fault), err=True)
        sys.exit(2)
    except TriageError as error:
        _say(str(error))
        sys.exit(2)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(0)


def run() -> NoReturn:
    """Run the command line and leave at once: taking the house down room by room costs a tenth of a whole answer.

    Everything is written before: the journal commits as it goes, and what is still to be printed is printed here.
    """
    code = 0
    try:
        main()
    except SystemExit as done:
        code = done.code if isinstance(done.code, int) else 0
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(OSError, ValueError):  # nobody reads any more
            stream.flush()
    os._exit(code)


def _say(message: str) -> None:
    click.echo(f"triage: {' '.join(message.split())}", err=True)
