"""The contributors' guide shows a whole question type; it works as it stands there."""

import re
from pathlib import Path

from navlib.marking import mark

GUIDE = Path(__file__).parent.parent / "DEVELOPERS.md"


def test_the_guides_question_type_works_and_is_short():
    (code,) = re.findall(r"```python\n(.*?)```", GUIDE.read_text(encoding="utf-8"), re.S)
    assert len(code.splitlines()) <= 60
    shown: dict = {}
    exec(compile(code, GUIDE.name, "exec"), shown)
    step = shown["TO_GRID"]
    for seed in range(50):
        question = shown["TYPE"].make(seed)
        assert mark(question, question.answers).right
        for slip in step.slips:
            ends = question.chain.run(question.givens, {step.name: slip})
            told = mark(question, step.kind.write(ends["grid"]))
            assert told.slips == (slip.name,)
