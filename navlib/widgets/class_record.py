"""The class record on the instructor's page: a line of a notebook."""

from navlib.classroom.keep_form import KeepForm
from navlib.widgets.form_part import FormPart
from navlib.widgets.shown import front


class ClassRecord(FormPart):
    """Who was there, how the class stands, and what to open the next session with."""

    quiet = ("table", "page", "data", "old")
    words = (
        "The class record: who was there, how the class stands, what to open the next session with."
    )
    _esm = front("kit.js", "coach_parts.js", "class_record.js")
    _css = front("kit.css", "coach.css", "coach_plan.css", "coach_marks.css", "class_record.css")


def page() -> ClassRecord:
    """Return the class record."""
    return ClassRecord(KeepForm())
