"""What is given back after a sitting: results for the coach, a feedback sheet for each candidate."""

import re
from collections.abc import Sequence
from pathlib import Path

from navlib.paper.coach.making import Told, nothing_told
from navlib.paper.feedback import feedback
from navlib.paper.folder import put
from navlib.paper.results import class_csv, class_list
from navlib.paper.scripts import Script
from navlib.paper.sitting import Sitting

RESULTS, CLASS_LIST = "results.pdf", "class-list.csv"


def write_results(sitting: Sitting, told: Told = nothing_told) -> list[Path]:
    """Write the coach's pages and the class list; raises ValueError if nothing is marked."""
    from navlib.paper.handouts import results_pdf  # brings the typesetter

    scripts, differences = marked(sitting), sitting.differences()
    told("The results", 0.3)
    files = [sitting.path / "results" / name for name in (RESULTS, CLASS_LIST)]
    put(files[0], results_pdf(scripts, sitting.plan.blueprint.title, differences=differences))
    put(files[1], ("\ufeff" + class_csv(class_list(scripts, differences))).encode())
    return files


def write_feedback(
    sitting: Sitting, *, closing: str = "", large: bool = False, told: Told = nothing_told
) -> list[Path]:
    """Write a feedback sheet for each candidate marked, and return the files in their order."""
    from navlib.paper.handouts import feedback_pdf  # brings the typesetter

    scripts, files = marked(sitting), list[Path]()
    for n, script in enumerate(scripts):
        told(f"Feedback for candidate {script.candidate}", n / len(scripts))
        file = sitting.path / "results" / f"{_name(script, scripts)}.pdf"
        title = sitting.plan.blueprint.title
        put(file, feedback_pdf(feedback(script), title, closing=closing, large=large))
        files.append(file)
    return files


def marked(sitting: Sitting) -> list[Script]:
    """Return the papers marked so far; ValueError if there is none."""
    scripts = sitting.scripts()
    if not scripts:
        raise ValueError("No paper has been marked yet: enter a candidate’s answers first.")
    return scripts


def _name(script: Script, scripts: Sequence[Script]) -> str:
    """Return the name of a candidate's file, which no other candidate's has."""
    plain = [_plain(each.candidate) for each in scripts]
    own = _plain(script.candidate)
    if plain.count(own) == 1:
        return f"feedback-{own}"
    return f"feedback-{own}-{1 + scripts.index(script)}"


def _plain(candidate: str) -> str:
    return re.sub(r"[^\w-]+", "-", candidate).strip("-").lower() or "candidate"
