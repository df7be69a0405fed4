"""What can be wrong with a bundle; whatever it is, nothing of it is kept."""

from __future__ import annotations

from bench.fault import Fault

_AGAIN = "write the bundle again on the other tablet and copy it whole; nothing was kept of this one"


class BundleFault(Fault):
    """Any mistake in a bundle; `path` is the file."""

    def __init__(self, path: str, what: str, *, at: str = "", todo: str = _AGAIN) -> None:
        super().__init__(what, where=f"{path}, {at}" if at else path, todo=todo)
        self.path, self.at = path, at


class NoBundle(BundleFault):
    def __init__(self, path: str, why: str) -> None:
        self.why = why
        super().__init__(
            path, f"this is no bundle ({why})", todo="choose a file that 'bundle this panel' wrote"
        )


class BundleUnreadable(BundleFault):
    def __init__(self, path: str, reason: str) -> None:
        self.reason = reason
        super().__init__(path, f"the file cannot be read ({reason})", todo="check its name and permissions")


class BundleBroken(BundleFault):
    """It is cut short, or what is in it does not fit together."""

    def __init__(self, path: str, why: str, at: str = "") -> None:
        self.why = why
        super().__init__(path, f"the bundle is damaged ({why})", at=at)


class BundleTooLarge(BundleFault):
    def __init__(self, path: str, why: str, at: str = "") -> None:
        self.why = why
        super().__init__(path, f"the bundle is larger than any panel ({why})", at=at)


class BundleUnsafe(BundleFault):
    """It holds what no bundle holds: paths out of it, links, encrypted or unknown members."""

    def __init__(self, path: str, why: str, at: str) -> None:
        self.why = why
        super().__init__(
            path, f"no bundle holds {why}", at=at, todo="do not open it; ask whoever sent it for another"
        )


class HashWrong(BundleFault):
    """A member is not what the manifest says it is."""

    def __init__(self, path: str, at: str) -> None:
        super().__init__(path, "its content has changed since the bundle was written", at=at)


class NewerBundle(BundleFault):
    def __init__(self, path: str, version: int, known: int) -> None:
        self.version, self.known = version, known
        super().__init__(
            path,
            f"the bundle has version {version}, and this Potwatch knows versions up to {known}",
            todo="open it with a newer Potwatch; nothing was kept of it",
        )


class BundleNotWritten(BundleFault):
    def __init__(self, path: str, reason: str) -> None:
        self.reason = reason
        super().__init__(path, f"the bundle cannot be written ({reason})", todo="name another file or folder")
