"""`brimful new FILE`: a commented starter plan, or one from the answers to a few questions."""

import sys
from pathlib import Path

import click


@click.command("new")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--ask", is_flag=True, help="Ask a few questions, and make the plan from the answers.")
def command(file: Path, ask: bool) -> None:
    """Write a commented starter plan to FILE; never over a file that is there."""
    from brimful.services.starting import write_starter

    if file.exists() or file.is_symlink():
        _leave(f"{file} is there already and stays as it is. Give another name.")
    text = _asked() if ask else None
    try:
        write_starter(file, text)
    except FileExistsError:
        _leave(f"{file} is there already and stays as it is. Give another name.")
    except OSError as error:
        _leave(f"{file} cannot be written: {error.strerror}.")
    click.echo(f"Wrote {file}. Change it to your place, then: brimful check {file}; brimful design {file}")


def _leave(words: str) -> None:
    click.echo(words, err=True)
    sys.exit(1)


def _asked() -> str:
    """The plan's text from answers; a wrong answer is asked for again."""
    from brimful.plan.answers import QUESTIONS
    from brimful.services.starting import plan_from_answers

    given: dict[str, str] = {}
    open_ones = [question.key for question in QUESTIONS]
    click.echo("Leave empty what you do not know.")
    while True:
        for question in (one for one in QUESTIONS if one.key in open_ones):
            words = f"{question.asks} " + (_choices(question.choices) if question.choices else f"({question.example})")
            given[question.key] = click.prompt(words, default="", show_default=False)
        started = plan_from_answers(given)
        if started.text is not None:
            return started.text
        open_ones = [one.where.field for one in started.findings if one.where.field in given]
        for one in started.findings:
            click.echo(f"{one.message.rstrip('.')}. {one.remedy}".rstrip(), err=True)
        if not open_ones:
            sys.exit(1)


def _choices(choices: object) -> str:
    assert isinstance(choices, dict)
    return "(" + "; ".join(f"{key}: {words}" for key, words in choices.items()) + ")"
