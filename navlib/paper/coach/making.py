"""Makes a sitting: its papers from a blueprint, and all files that go with them, told as it goes on."""

from collections.abc import Callable
from pathlib import Path

from navlib.paper import folder
from navlib.paper.blueprint import Blueprint
from navlib.paper.building import FIRST_SITTING
from navlib.paper.sitting import Sitting

Told = Callable[[str, float], None]
"""What is being done, and the share of the whole that is done."""

MOST = 200
"""Papers of one sitting, at most."""


def nothing_told(_words: str, _share: float) -> None:
    """Tell nobody."""


def make(
    path: Path | str,
    blueprint: Blueprint,
    count: int,
    *,
    name: str = FIRST_SITTING,
    secret: bytes | None = None,
    resit_of: Path | None = None,
    large: bool = False,
    html: bool = False,
    told: Told = nothing_told,
) -> Sitting:
    """Make a sitting with all its files and return it.

    A resit takes the secret of the sitting that it follows, and needs the same blueprint and a `name`
    of its own. Raises ValueError with a sentence, and nothing is made then.
    """
    if not 1 <= count <= MOST:
        raise ValueError(f"A sitting has 1 to {MOST} papers; {count} were asked for.")
    if folder.is_taken(Path(path)):
        raise FileExistsError(f"There is a sitting in {path} already. Choose another folder.")
    if resit_of is not None:
        secret = _secret_for(resit_of, name)
    follows = _sat(resit_of) if resit_of is not None else ()
    told("Drawing the questions", 0.02)
    sitting = Sitting.new(path, blueprint, count, secret, name, follows=follows)
    print_all(sitting, large=large, html=html, told=told)
    return sitting


def print_all(
    sitting: Sitting, *, large: bool = False, html: bool = False, told: Told = nothing_told
) -> tuple[Path, ...]:
    """Write all files of a sitting, or write them anew, and return them.

    `large` adds an edition in large print, `html` one as a web page, as screen readers like it.
    """
    from navlib.paper.binding import bind  # brings matplotlib and the typesetter

    def progress(done: int, whole: int, name: str) -> None:
        told(f"Writing {name}" if name else "Done", 0.1 + 0.9 * done / whole)

    papers = list(sitting.papers.values())
    return bind(sitting.path, papers, large=large, html=html, progress=progress)


def blueprint_for_resit(of: Path) -> Blueprint:
    """Return the blueprint of a sitting, which its resit takes over."""
    return folder.read_plan(of).blueprint


def _secret_for(of: Path, name: str) -> bytes:
    if name.strip() in {FIRST_SITTING, *(sat for sat, _ in _sat(of))}:
        raise ValueError(
            f"A resit needs a name of its own, such as “resit”; “{name}” was sat already."
        )
    return folder.read_secret(of)


def _sat(of: Path) -> tuple[tuple[str, int], ...]:
    """Return the sittings up to the one in this folder, and how many papers each had."""
    plan = folder.read_plan(of)
    return (*plan.follows, (plan.name, len(plan.codes)))
