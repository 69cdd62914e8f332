"""Worked examples: a question gone through step by step."""

from collections.abc import Mapping
from typing import Any

from navlib.chain.question import Question
from navlib.desk.by_hand import by_hand
from navlib.language import say
from navlib.pictures.drawn import draw, tabulate
from navlib.questions.asked import asked_part


def asked(question: Question, heading: str) -> dict[str, Any]:
    """Return what a question asks, as a face holds it, its title behind a heading."""
    return {
        "title": f"{heading}: {question.title}",
        "text": question.text,
        "picture": draw(question.picture),
        "table": tabulate(question.picture),
        "parts": [asked_part(question, name) for name in question.asks],
    }


def worked_steps(question: Question) -> dict[str, Any]:
    """Return the face of a worked example: what is asked, then a way and a line for each step.

    A step that is done on the sheet is shown movement by movement, with where the instruments lie
    after each as "lies".
    """
    on_sheet, movements = by_hand(question)
    steps: list[dict[str, Any]] = []
    for step in question.steps:
        line = say(step.line, question.written)
        if line and step.name == on_sheet:
            steps += [{"how": one.how, "line": "", "lies": one.lies} for one in movements]
            steps[-1]["line"] = line
        elif line:
            steps.append({"how": say(step.how, question.written), "line": line})
    return asked(question, say("Worked example")) | {"steps": steps}


def written(face: Mapping[str, Any]) -> str:
    """Return what a face asks as Markdown, but for its picture."""
    table = [_table(face["table"])] if face.get("table") else []
    parts = [_part(part) for part in face["parts"]]
    return "\n\n".join([face["title"], face["text"], *table, *parts])


def solution(question: Question, number: int) -> str:
    """Return the worked solution of a question as Markdown, headed by its number."""
    answers = "; ".join(
        f"{question.prompts[name]}: **{answer}**" + (f" (± {width})" if width else "")
        for name, answer in question.answers.items()
        for width in [question.band_written(name)]
    )
    steps = "\n".join(
        f"{n}. {say(step.how, question.written)} *{say(step.line, question.written)}*"
        for n, step in enumerate(question.steps, 1)
    )
    parts = [f"### {number}. {question.title}", question.text, steps, answers]
    if table := tabulate(question.picture):
        parts.insert(2, _table(table))
    return "\n\n".join(parts)


def _part(part: Mapping[str, Any]) -> str:
    options = "\n".join(f"- {key}: {text}" for key, text in part["options"] or ())
    return f"{part['prompt']}:\n\n{options}" if options else f"{part['prompt']}: …"


def _table(table: Mapping[str, Any]) -> str:
    rows = [table["heads"], ["---"] * len(table["heads"]), *table["rows"]]
    return f"{table['caption']}:\n\n" + "\n".join(f"| {' | '.join(row)} |" for row in rows)
