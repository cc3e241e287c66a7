"""The one error of this wing: something in the bank that its author has to mend."""


class BankError(Exception):
    """A fault in an item. The message names file, item and field, says what is wrong and what to do."""

    def __init__(self, file: str, item: str, field: str, problem: str):
        super().__init__(f"{file}, item {item!r}, field {field!r}: {problem}")
        self.file = file
        self.item = item
        self.field = field
        self.problem = problem
