"""What is shown of a question's part, for every front end alike: no key, no chain."""

from typing import Any

from navlib.chain.question import Question
from navlib.kinds.choices import Choice, letters
from navlib.kinds.marks import OnSheet


def asked_part(question: Question, name: str) -> dict[str, Any]:
    """Return a part as it is asked: `name`, `prompt`, an `example` of writing it, `options`.

    `options` is a list of key and text, the key being what is handed in; None where nothing is to
    be chosen from. `drawn` is the pencil that the answer is drawn with on the sheet, “pencil mark”
    and so on, empty where nothing is; `written` whether it may be written all the same.
    """
    kind = question.chain.by_name[name].kind
    options = None
    if isinstance(kind, Choice):
        options = [[key, kind.told(key)] for key in letters(kind.options).values()]
    return {
        "name": name,
        "prompt": question.prompts[name],
        "example": "" if options else kind.example,
        "options": options,
        "drawn": f"pencil {kind.sort}" if isinstance(kind, OnSheet) else "",
        "written": not (isinstance(kind, OnSheet) and kind.drawn_only),
    }
