"""A file in YAML as a person writes it: its nodes, or what keeps it from being read, by its line."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import yaml

from navlib.paper.nodes import Problem, did_you_mean

LONGEST_FILE = 100_000


class NotYaml(ValueError):
    """A text that is no YAML; `problem` is the line and a sentence."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(f"line {problem.line}: {problem.sentence}")


class Mistakes(ValueError):
    """A file that cannot be used: `problems` are line and sentence of each mistake in it."""

    def __init__(self, name: str, problems: tuple[Problem, ...]) -> None:
        self.name, self.problems = name, problems
        super().__init__("\n".join(f"line {p.line}: {p.sentence}" for p in problems))


def file_of(
    source: str | Path, folder: Path, ready: Sequence[str], what: str, example: str
) -> Path:
    """Return the file that is meant: one of a person's own, or the one in `folder` of a `ready` name.

    `what` is such as “blueprint”. Raises FileNotFoundError with the names there are.
    """
    file = Path(source)
    if file.suffix not in (".yaml", ".yml") and str(source) in ready:
        file = folder / f"{source}.yaml"
    if not file.is_file():
        near = did_you_mean(str(source), ready)
        raise FileNotFoundError(
            f"There is no {what} “{source}”{near} Ready made are: {', '.join(ready)}; or give the path "
            f"of a file of your own, such as {example}."
        )
    return file


def text_of(file: Path) -> str:
    """Return the text of a file. Raises NotYaml if it is not in UTF-8, and OSError."""
    content = file.read_bytes()
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        line = content[: wrong.start].count(b"\n") + 1
        says = "this is no text in UTF-8. Save the file as “UTF-8” in your editor."
        raise NotYaml(Problem(line, says)) from None


def root_of(text: str, what: str) -> yaml.Node | None:
    """Return the node that holds all others, None for an empty text; `what` is such as “a blueprint”.

    Nothing in the text is run. Raises NotYaml.
    """
    try:
        if len(text) > LONGEST_FILE:
            raise yaml.MarkedYAMLError(problem=f"this is far too long for {what}")
        root: yaml.Node | None = yaml.compose(text, Loader=yaml.SafeLoader)
    except (yaml.YAMLError, RecursionError) as wrong:
        raise NotYaml(_problem(wrong, text)) from None
    return root


def written(content: Mapping[str, Any]) -> str:
    """Return plain data as the text of a file, in their order, which reads back equal."""
    return yaml.dump(content, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=100)


class _Dumper(yaml.SafeDumper):
    """Writes texts in quotation marks where YAML would read one of their line ends as another."""


def _text(dumper: yaml.SafeDumper, text: str) -> yaml.Node:
    quoted = '"' if set(text) & set("\r\x85\u2028\u2029") else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=quoted)


_Dumper.add_representer(str, _text)


def _problem(wrong: Exception, text: str) -> Problem:
    mark = getattr(wrong, "problem_mark", None)
    line = mark.line + 1 if mark else 1
    if "\t" in (text.splitlines() or [""])[min(line, text.count("\n") + 1) - 1]:
        return Problem(line, "there is a tab. Indent with spaces.")
    says = getattr(wrong, "problem", None) or "this cannot be read"
    return Problem(
        line,
        f"{says}. Write “name: value” on each line, lists with “- ” before each item, and put words "
        "with a colon in quotation marks.",
    )
