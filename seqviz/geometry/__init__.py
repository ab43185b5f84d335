"""Convex prisms and what is asked of them: contact, ways in, room for tools, lines through holes."""
