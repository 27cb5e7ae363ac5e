"""Errors of the trade: each carries a sentence that a person can act on."""


class FruitwrightError(Exception):
    """Something that we can explain in one sentence; the sentence is the first argument."""


class NotUnderstood(FruitwrightError):
    """A value given by a person cannot be used.

    `faults` are (pointer, detail) pairs; the pointer is a JSON pointer (RFC 6901) into what was given,
    so that a form can put the sentence at its field.
    """

    def __init__(self, *faults: tuple[str, str]) -> None:
        self.faults: tuple[tuple[str, str], ...] = faults
        super().__init__("; ".join(f"{pointer or '/'}: {detail}" for pointer, detail in faults))


class TooLarge(NotUnderstood):
    """What was given is larger than a stated limit; the sentence names the limit."""


class KnowledgeFault(FruitwrightError):
    """A file under rules/ is malformed: says the file, the line, the entry and what to write instead."""

    def __init__(self, file: str, line: int, what: str, *, entry: str | None = None) -> None:
        self.file, self.line, self.entry, self.what = file, line, entry, what
        where = f"{file}:{line}" + (f": {entry}" if entry else "")
        super().__init__(f"{where}: {what}")
