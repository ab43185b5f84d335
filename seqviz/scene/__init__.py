"""What a picture shows, as data: parts with their roles, marks, words; no graphics needed."""
