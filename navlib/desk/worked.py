"""Worked examples: a question gone through step by step."""

from typing import Any

from navlib.chain.question import Question
from navlib.desk.pictures import draw, tabulate


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
        f"{question.prompts[name]}: **{answer}** (± {question.band_written(name)})"
        for name, answer in question.answers.items()
    )
    lines = "\n".join(f"{n}. {line}" for n, line in enumerate(question.working(), 1))
    return f"### {number}. {question.title}\n\n{question.text}\n\n{lines}\n\n{answers}"
