"""A clock that a test sets, and that can do all that real clocks do to a maker."""

from datetime import UTC, datetime, timedelta, timezone


class FakeClock:
    """Wall clock, boot clock and boot id under a test's hand; `passed_s` is the time that truly passed."""

    def __init__(
        self,
        utc: datetime = datetime(2026, 5, 4, 9, 0, tzinfo=UTC),
        boot_s: float | None = 1000.0,
        boot_id: str | None = "boot-a",
    ) -> None:
        self._utc = utc
        self._boot_s = boot_s
        self._boot_id = boot_id
        self._boots = 0
        self.passed_s = 0.0

    def utc(self) -> datetime:
        return self._utc

    def boot_s(self) -> float | None:
        return self._boot_s

    def boot_id(self) -> str | None:
        return self._boot_id

    def advance(self, seconds: float) -> None:
        """Let time pass: both clocks go on."""
        self._utc += timedelta(seconds=seconds)
        self.passed_s += seconds
        if self._boot_s is not None:
            self._boot_s += seconds

    def sleep(self, seconds: float) -> None:
        """Let the machine sleep: the boot clock counts that too (it is no monotonic clock)."""
        self.advance(seconds)

    def set_wall(self, utc: datetime) -> None:
        """Set the wall clock, as a person, a time server or daylight saving does; no time passes."""
        self._utc = utc

    def reboot(self, down_s: float = 30.0) -> None:
        """Switch the machine off for so long and on again."""
        self._utc += timedelta(seconds=down_s)
        self.passed_s += down_s
        self._boots += 1
        if self._boot_s is not None:
            self._boot_s = 0.0
        if self._boot_id is not None:
            self._boot_id = f"boot-{self._boots}"

    def without_boot_clock(self) -> None:
        """Be a machine that has neither boot clock nor boot id from now on."""
        self._boot_s = None
        self._boot_id = None

    def without_boot_id(self) -> None:
        """Be a machine whose boot clock cannot be told from that of another boot."""
        self._boot_id = None

    def count_from(self, boot_s: float) -> None:
        """Let the boot clock begin anew without a restart: no machine should, and one might."""
        self._boot_s = boot_s

    def travel(self, hours_east: float) -> None:
        """Take the machine to another time zone: its clock says the same instant in other words."""
        self._utc = self._utc.astimezone(timezone(timedelta(hours=hours_east)))
