"""YAML -> typed, located records, and every mistake of reading as a finding."""
