"""The form in which an instructor plans a session: a line of a notebook."""

from navlib.classroom.plan.form import PlanForm
from navlib.widgets.form_part import FormPart
from navlib.widgets.shown import front


class SessionPlan(FormPart):
    """A plan of a session: its segments, what it comes to, and what is printed of it."""

    quiet = ("reckon", "take", "read", "page", "cards", "key")
    words = (
        "A form to plan a session: begin with a ready-made plan, change its parts, print it with the "
        "work cards of a class."
    )
    _esm = front(
        "kit.js",
        "coach_parts.js",
        "list_editor.js",
        "session_segments.js",
        "session_sum.js",
        "session_plan.js",
    )
    _css = front("kit.css", "coach.css", "coach_plan.css", "coach_marks.css", "session_plan.css")


def form() -> SessionPlan:
    """Return the form of a plan."""
    return SessionPlan(PlanForm())
