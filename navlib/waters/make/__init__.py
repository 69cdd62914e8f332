"""Makes the training waters from a hand-drawn plan and a seed; run `python -m navlib.waters.make`."""
