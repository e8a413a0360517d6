"""How right the answers are: published values run through them, and what comes of it."""
