"""The one base of every mistake that is told to a person: what is wrong, where, and what to do."""

from bench.speech import large_first


class Fault(Exception):
    """Tell a mistake in one line.

    Each room derives small named faults from this one; they take the offending data, keep it as
    attributes, and word the three parts. The command line prints `str(fault)`, a screen shows the parts.
    """

    def __init__(self, what: str, *, where: str = "", todo: str = "") -> None:
        super().__init__(what)
        self.what = " ".join(what.split())
        self.where = " ".join(where.split())
        self.todo = " ".join(todo.split())

    @property
    def sentence(self) -> str:
        """What is wrong and what to do, as a sentence; where is plain to who looks at the place itself."""
        return f"{large_first(self.what)}; {self.todo}."

    def __str__(self) -> str:
        head = f"{self.where}: {self.what}" if self.where else self.what
        return f"{head}; {self.todo}" if self.todo else head
