"""What can be wrong with a bundle; whatever it is, nothing of it is kept."""

from __future__ import annotations

from bench.fault import Fault
from bench.speech import say


class BundleFault(Fault):
    """Any mistake in a bundle; `path` is the file. Without a todo it is to be written again."""

    def __init__(self, path: str, what: str, *, at: str = "", todo: str = "") -> None:
        where = say("{path}, {at}", path=path, at=at) if at else path
        again = say(
            "write the bundle again on the other tablet and copy it whole; nothing was kept of this one"
        )
        super().__init__(what, where=where, todo=todo or again)
        self.path, self.at = path, at


class NoBundle(BundleFault):
    def __init__(self, path: str, why: str) -> None:
        self.why = why
        super().__init__(
            path,
            say("this is no bundle ({why})", why=why),
            todo=say("choose a file that 'bundle this panel' wrote"),
        )


class BundleUnreadable(BundleFault):
    def __init__(self, path: str, reason: str) -> None:
        self.reason = reason
        super().__init__(
            path,
            say("the file cannot be read ({reason})", reason=reason),
            todo=say("check its name and permissions"),
        )


class BundleBroken(BundleFault):
    """It is cut short, or what is in it does not fit together."""

    def __init__(self, path: str, why: str, at: str = "") -> None:
        self.why = why
        super().__init__(path, say("the bundle is damaged ({why})", why=why), at=at)


class BundleTooLarge(BundleFault):
    def __init__(self, path: str, why: str, at: str = "") -> None:
        self.why = why
        super().__init__(path, say("the bundle is larger than any panel ({why})", why=why), at=at)


class BundleUnsafe(BundleFault):
    """It holds what no bundle holds: paths out of it, links, encrypted or unknown members."""

    def __init__(self, path: str, why: str, at: str) -> None:
        self.why = why
        super().__init__(
            path,
            say("no bundle holds {what}", what=why),
            at=at,
            todo=say("do not open it; ask whoever sent it for another"),
        )


class HashWrong(BundleFault):
    """A member is not what the manifest says it is."""

    def __init__(self, path: str, at: str) -> None:
        super().__init__(path, say("its content has changed since the bundle was written"), at=at)


class NewerBundle(BundleFault):
    def __init__(self, path: str, version: int, known: int) -> None:
        self.version, self.known = version, known
        super().__init__(
            path,
            say(
                "the bundle has version {version}, and this Potwatch knows versions up to {known}",
                version=version,
                known=known,
            ),
            todo=say("open it with a newer Potwatch; nothing was kept of it"),
        )


class BundleNotWritten(BundleFault):
    def __init__(self, path: str, reason: str) -> None:
        self.reason = reason
        super().__init__(
            path,
            say("the bundle cannot be written ({reason})", reason=reason),
            todo=say("name another file or folder"),
        )
