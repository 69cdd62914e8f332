"""What came of a sitting, as plain data: class list, questions, the paper, two markers."""

from collections.abc import Iterable
from typing import Any

from navlib.paper.findings import QuestionFindings
from navlib.paper.lessons import title
from navlib.paper.practising import plain_words
from navlib.paper.results import Row, class_list, item_findings, question_titles
from navlib.paper.scripts import write_marks
from navlib.paper.sentences import Finding
from navlib.paper.sitting import Sitting


def outcome(sitting: Sitting) -> dict[str, Any]:
    """Return what came of a sitting so far; without a paper marked, no more than their number."""
    scripts = sitting.scripts()
    known = {"marked": len(scripts), "papers": len(sitting.plan.codes)}
    if not scripts:
        return known
    differences = sitting.differences()
    rows, found = class_list(scripts, differences), item_findings(scripts)
    topics = list(dict.fromkeys(topic.topic for row in rows for topic in row.topics))
    titles = question_titles(scripts)
    return {
        **known,
        "topics": [title(topic) for topic in topics],
        "class": [_row(row, topics) for row in rows],
        "middle": found.middle.says,
        "whole": [
            [found.coefficient, *_said(found.reliability)],
            ["How near a mark is", *_said(found.error)],
            ["Variants", *_said(found.variants)],
        ],
        "questions": [_question(one, titles[one.number]) for one in found.questions],
        "few": _few(found.questions),
        "differences": [
            {"says": one.says, "discuss": one.discuss, "places": _places(one)}
            for one in differences
        ],
    }


def _row(row: Row, topics: list[str]) -> dict[str, Any]:
    shares = {topic.topic: topic.share for topic in row.topics}
    return {
        "candidate": row.candidate,
        "name": row.name,
        "marks": write_marks(row.marks),
        "out_of": write_marks(row.out_of),
        "percent": row.percent,
        "verdict": row.verdict,
        "topics": [shares.get(topic) for topic in topics],
        "looks": list(row.looks),
    }


def _question(one: QuestionFindings, called: str) -> dict[str, Any]:
    says = [one.facility, one.discrimination, *((one.variants,) if one.variants.review else ())]
    return {
        "number": one.number,
        "title": called,
        "facility": _figure(one.facility),
        "discrimination": _figure(one.discrimination),
        "slips": [f"{plain_words(name)} ({times})" for name, times in one.slips],
        "says": [each.says for each in says],
        "review": one.review,
    }


def _few(questions: Iterable[QuestionFindings]) -> list[str]:
    """Return the warnings of too small numbers, each once however many questions have it."""
    found = (each.few for one in questions for each in (one.facility, one.discrimination))
    return [few for few in dict.fromkeys(found) if few]


def _said(finding: Finding) -> list[str]:
    return [finding.says, finding.few]


def _figure(finding: Finding) -> str:
    return "–" if finding.value is None else f"{finding.value:.2f}".replace("-", "−")


def _places(one: Any) -> list[list[str]]:
    return [[place.label, place.first or "–", place.second or "–"] for place in one.places]
