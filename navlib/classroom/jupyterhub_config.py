"""Read by JupyterHub when `python -m navlib class serve` starts it."""

from traitlets.config import get_config

from navlib.classroom.hub import Settings, configure

configure(get_config(), Settings.from_environment())
