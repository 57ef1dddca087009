"""Decide what a reading means now: state and reading in, new state and answer out."""
