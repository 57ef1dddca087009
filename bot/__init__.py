"""Two-Line Caddie: a message in, a two-line answer out, the choice logged."""
