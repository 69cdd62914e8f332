"""Long work told in a terminal."""

import sys


class Progress:
    """A line on standard error that tells how far long work is; no more than lines if it is a file."""

    def __init__(self) -> None:
        self.live = sys.stderr.isatty()
        self.tenth = -1

    def __enter__(self) -> "Progress":
        return self

    def __call__(self, words: str, share: float) -> None:
        """Tell what is being done and the share that is done."""
        if self.live:
            print(f"\r\x1b[K{share:4.0%}  {words}", end="", file=sys.stderr, flush=True)
        elif int(10 * share) > self.tenth:
            self.tenth = int(10 * share)
            print(f"{share:4.0%}  {words}", file=sys.stderr, flush=True)

    def __exit__(self, *_what: object) -> None:
        if self.live:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)
