"""Read by JupyterHub when `python -m navlib class serve` starts it."""

from navlib.classroom.hub import Settings, configure

configure(get_config(), Settings.from_environment())  # type: ignore[name-defined]  # noqa: F821
