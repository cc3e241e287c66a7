"""When to study what: pure functions over what the records hold. No clock, no random, no database."""
