"""Parse arguments, read the environment, run one transport."""
