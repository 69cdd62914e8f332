"""The coach's page: set a paper, mark it, see what came of it; a line of a notebook each."""

from navlib.paper.coach.desks import Marking, Results
from navlib.paper.coach.room import Room
from navlib.paper.coach.setting import Setting
from navlib.widgets.form_part import Behind, FormPart
from navlib.widgets.shown import front


class CoachPart(FormPart):
    """A part of the coach's page; a sitting that is opened in one lies open in the others."""

    quiet = ("reckon", "folder", "take", "read", "resit", "save", "table")

    def __init__(self, page: "Coach", desk: Behind) -> None:
        self.page, self._sitting = page, page.room.sitting
        super().__init__(desk)

    def done(self, action: str) -> None:
        """Show what an action has changed, in the other parts too if another sitting lies open."""
        another = self.page.room.sitting is not self._sitting
        super().done(action)
        if another:
            self.page.refresh(self)

    def refresh(self) -> None:
        """Show what stands behind the part now."""
        super().refresh()
        self._sitting = self.page.room.sitting


_STYLE = front("kit.css", "coach.css", "coach_plan.css", "coach_marks.css")


class PaperForm(CoachPart):
    """The form in which a paper is set."""

    words = (
        "A form to set a paper: choose a blueprint, change it, make as many variants as you need."
    )
    _esm = front(
        "kit.js",
        "coach_parts.js",
        "list_editor.js",
        "coach_rows.js",
        "coach_plan.js",
        "coach_paper.js",
    )
    _css = _STYLE


class MarkingForm(CoachPart):
    """The form in which answers are entered and marked."""

    words = "A form to enter a candidate’s answers; the marks stand beside each at once."
    _esm = front("kit.js", "coach_parts.js", "coach_item.js", "coach_table.js", "coach_marking.js")
    _css = _STYLE


class ResultsPart(CoachPart):
    """Class list and item analysis."""

    words = "The class list, what the paper did, and the feedback sheets."
    _esm = front("kit.js", "coach_parts.js", "coach_results.js")
    _css = _STYLE


class Coach:
    """The coach's page. What is opened in one part lies open in the others."""

    def __init__(self) -> None:
        self.room = Room()
        self.parts: list[CoachPart] = []

    def paper(self) -> CoachPart:
        """Return the form in which a paper is set."""
        return self._shown(PaperForm(self, Setting(self.room)))

    def marking(self) -> CoachPart:
        """Return the form in which answers are entered."""
        return self._shown(MarkingForm(self, Marking(self.room)))

    def results(self) -> CoachPart:
        """Return class list, item analysis and what is given back."""
        return self._shown(ResultsPart(self, Results(self.room)))

    def refresh(self, but: CoachPart) -> None:
        """Show anew all parts except one."""
        for part in self.parts:
            if part is not but:
                part.refresh()

    def _shown(self, part: CoachPart) -> CoachPart:
        self.parts.append(part)
        return part
