"""Steps, blockers, replay: what the builder does, in order, and what is in the way of it."""
