"""Worked examples: a question gone through step by step."""

from typing import Any

from navlib.chain.question import Question
from navlib.pictures.drawn import draw, tabulate
from navlib.questions.picture import Table


def worked_steps(question: Question) -> dict[str, Any]:
    """Return the face of a worked example: what is asked, then a way and a line for each step."""
    steps = [step for step in question.steps if step.line]
    return {
        "title": f"Worked example: {question.title}",
        "text": question.text,
        "picture": draw(question.picture),
        "table": tabulate(question.picture),
        "steps": [
            {
                "how": step.how.format_map(question.written),
                "line": step.line.format_map(question.written),
            }
            for step in steps
        ],
    }


def solution(question: Question, number: int) -> str:
    """Return the worked solution of a question as Markdown, headed by its number."""
    answers = "; ".join(
        f"{question.prompts[name]}: **{answer}**" + (f" (± {width})" if width else "")
        for name, answer in question.answers.items()
        for width in [question.band_written(name)]
    )
    steps = "\n".join(
        f"{n}. {step.how} *{step.line}*".format_map(question.written)
        for n, step in enumerate(question.steps, 1)
    )
    parts = [f"### {number}. {question.title}", question.text, steps, answers]
    if isinstance(question.picture, Table):
        parts.insert(2, _markdown(question.picture))
    return "\n\n".join(parts)


def _markdown(table: Table) -> str:
    rows = [table.heads, ["---"] * len(table.heads), *table.rows]
    return f"{table.caption}:\n\n" + "\n".join(f"| {' | '.join(row)} |" for row in rows)
