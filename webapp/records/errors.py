"""What can go wrong with the records as a whole."""


class RecordsError(Exception):
    """The records can't be used this way. The message says what was read, what is wrong and what to do."""
