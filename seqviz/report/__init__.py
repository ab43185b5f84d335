"""Findings and stacks as text for a person, and as JSON for a program."""
