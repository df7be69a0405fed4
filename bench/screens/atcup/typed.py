"""What cannot be tapped is typed: the room's temperature, the reading of the scale, minutes gone by."""

from __future__ import annotations

from kivy.properties import NumericProperty, StringProperty

from bench.job.acts import cup
from bench.screens.atcup.step import CupStep
from bench.screens.atcup.weigh import make_contact


class CupPad(CupStep):
    """A number pad in place of the step it serves."""

    title = StringProperty("")
    unit = StringProperty("")
    use_text = StringProperty("Use")
    decimals = NumericProperty(1)
    least = NumericProperty(0.0)
    most = NumericProperty(999.0)

    def use(self, value: float) -> None:
        """Take the number over and go back to the step."""
        raise NotImplementedError

    def back(self) -> None:
        self.turn("")

    def act_on_key(self) -> bool:
        return True  # a pedal types nothing


class CupPadRoom(CupPad):
    """Type the room's temperature."""

    def refresh(self) -> None:
        self.title, self.unit, self.decimals = "How warm is the room?", "°C", 1
        self.least, self.most = 0.0, 60.0

    def use(self, value: float) -> None:
        self.turn(f"room {value:g}")


class CupPadResin(CupPad):
    """Type what the scale shows of resin."""

    def refresh(self) -> None:
        step_g = self.desk.job.state.bench.scale_g
        self.title, self.unit = "Resin in the cup, as the scale shows it", "g"
        self.decimals = 3 if step_g < 0.01 else 2 if step_g < 0.1 else 1
        self.least, self.most = step_g, 5000.0

    def use(self, value: float) -> None:
        done, _ = self.desk.attempt(cup.pour_resin, self.desk.mix, value)
        if done:
            self.turn("")


class CupPadLate(CupPad):
    """Type how many minutes ago hardener met resin."""

    def refresh(self) -> None:
        self.title, self.unit, self.decimals = "How many minutes ago did they meet?", "min", 1
        self.use_text = "Start from then"
        self.least, self.most = 0.0, cup.MOST_BACK_DATED_S / 60

    def use(self, value: float) -> None:
        make_contact(self.desk, 60.0 * value)


class CupLate(CupStep):
    """Resin met hardener a while ago: say when."""

    def start(self, minutes: float) -> None:
        """Start the clock so many minutes ago."""
        make_contact(self.desk, 60.0 * minutes)

    def back(self) -> None:
        self.turn("")

    def other(self) -> None:
        self.turn("pad late")

    def act_on_key(self) -> bool:
        return True
