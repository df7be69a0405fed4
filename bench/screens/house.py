"""The house: holds the screen that is shown, the card of the last mistake, and what runs elsewhere.

Nothing lies over anything. From the top down: the head with the way elsewhere, a plate for every mix that
runs while another screen is looked at, the card of a mistake, and the screen. Screens are made when they
are first turned to, so that the first frame waits only for the one it shows.
"""

from __future__ import annotations

from collections.abc import Hashable
from contextlib import suppress
from importlib import import_module
from typing import Any

from kivy.clock import Clock
from kivy.core.window import Window
from kivy.properties import ObjectProperty
from kivy.uix.boxlayout import BoxLayout

from bench.job.settings import LOOK, OPEN_DRAFT, TEXT_SCALE
from bench.screens.fit import Fit
from bench.screens.house_parts import Head, ReadingPlate, Sheet, Watch, follow_mixes, parts_of, tell_on
from bench.screens.keys import key_name
from bench.screens.load import load
from bench.screens.parts.plates import Notice
from bench.screens.parts.press import Pressable
from bench.screens.practice_plate import PracticePlate
from bench.screens.theme import LOOKS, theme
from bench.speech import say

SCREENS = {
    "panel": "bench.screens.panel:PanelScreen",
    "dry": "bench.screens.dry:DryScreen",
    "cup": "bench.screens.cup:CupScreen",
    "glueup": "bench.screens.glueup:GlueUpScreen",
    "finish": "bench.screens.finish:FinishScreen",
    "grouting": "bench.screens.grouting:GroutingScreen",
    "seeing": "bench.screens.seeing:SeeingScreen",
    "tile": "bench.screens.tile:TileScreen",
    "book": "bench.screens.book:BookScreen",
    "open": "bench.screens.open:OpenScreen",
    "trace": "bench.screens.trace:TraceScreen",
    "photograph": "bench.screens.photograph:PhotographScreen",
    "edge": "bench.screens.edge:EdgeScreen",
    "setup": "bench.screens.setup:SetupScreen",
    "label": "bench.screens.label:LabelScreen",
    "workshop": "bench.screens.workshop:WorkshopScreen",
    "stock": "bench.screens.stock:StockScreen",
    "rounds": "bench.screens.rounds:RoundsScreen",
    "tablet": "bench.screens.tablet:TabletScreen",
    "card": "bench.screens.card:CardScreen",
    "first": "bench.screens.first:FirstScreen",
}
FIRST_SCREEN = "panel"  # what it is made of is loaded before all else
TEACHING = ("cup", "glueup")  # they say themselves that it is practice, and what there is to learn


class House(BoxLayout):
    """Turn to the screen that the desk names, and keep it true."""

    desk = ObjectProperty(None)
    current = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: Any) -> None:
        self._made: dict[str, Any] = {}
        self._round: dict[str, Any] = {}
        self._watches: dict[int, Watch] = {}
        self._crowded: set[Hashable] = set()  # views that a card above leaves too little room
        self._before_rounds = "panel"
        super().__init__(**kwargs)
        theme.bind(left_handed=self._change_hands)  # a method: a setter would be held for ever
        self._fit = Fit(self, self._give_room)
        self._later = Clock.create_trigger(self._refresh)
        self.desk.bind(
            screen=self._turn,
            version=self._refresh,
            section=lambda *_: self._later(),
            mix=lambda *_: self._later(),
            now_s=self._tick,
            practice=self._begin_anew,
            spoken=self._speak_anew,
            fault_what=lambda *_: self._stack(),
            fault_where=lambda *_: self._stack(),
            fault_todo=lambda *_: self._stack(),
            news=lambda *_: self._stack(),
        )
        self.fbind("parent", self._listen)
        self.fbind("size", self._measure)
        theme.bind(text_scale=self._measure)
        self._dress()
        self._turn()

    def _standing(self, name: str) -> Any:
        """Return what stands round the screens, made when it is first needed."""
        if name not in self._round:
            self._round[name] = getattr(self, f"_new_{name}")()
        return self._round[name]

    def _new_head(self) -> Head:
        head = Head()
        head.bind(on_elsewhere=lambda _head: self._elsewhere())
        return head

    def _new_fault(self) -> Notice:
        card = Notice(care=True, act_text=say("Understood"), test_name="fault")
        card.bind(on_act=lambda _card: self.desk.clear_fault())
        return card

    def _new_fault_sheet(self) -> Sheet:
        return Sheet(self._new_fault())

    def _new_news_sheet(self) -> Sheet:
        card = Notice(act_text=say("Understood"), test_name="news")
        card.bind(on_act=self._read_news)
        return Sheet(card)

    def _new_reading(self) -> ReadingPlate:
        return ReadingPlate()

    def _new_practice(self) -> PracticePlate:
        return PracticePlate(factor=getattr(self.desk.job.clock, "factor", 1.0))

    def _listen(self, _house: object, parent: object) -> None:
        turn = Window.bind if parent is not None else Window.unbind  # the window keeps no house let go
        turn(on_keyboard=self._key)

    def _key(self, _window: object, key: int, *_: object) -> bool:
        """Take what no part took: Tab finds the first target, Escape goes back and never ends the app."""
        name = key_name(key)
        if name == "tab":
            first = next((w for w in self.walk() if isinstance(w, Pressable) and not w.disabled), None)
            if first is not None:
                first.focus = True
        elif name == "escape":
            self._back()
        return name in ("tab", "escape")

    def _back(self) -> None:
        """Go back one step within the screen, else home; from a glue-up nowhere."""
        if self.desk.fault_what:
            self.desk.clear_fault()
        elif not self.current.step_back() and self.desk.screen != "glueup":
            self.desk.go(self._before_rounds if self.desk.screen == "rounds" else "panel")

    def _begin_anew(self, *_: object) -> None:
        """Make all screens again: practice began or ended, and another job is on the desk."""
        self._made.clear()
        self._round.pop("practice", None)
        self._turn()

    def _speak_anew(self, *_: object) -> None:
        """Make all again that says anything: another language is spoken."""
        self._round.clear()
        self._watches.clear()
        self._fit = Fit(self, self._give_room)
        self._begin_anew()

    def _read_news(self, *_: object) -> None:
        self.desk.read_news()

    def _change_hands(self, *_: object) -> None:
        self._name_head()

    def screen(self, name: str) -> Any:
        """Return a screen, made on first use."""
        if name not in self._made:
            if name != FIRST_SCREEN:
                load()
            module, _, class_name = SCREENS[name].partition(":")
            made = getattr(import_module(module), class_name)(desk=self.desk)
            made.bind(title=lambda *_: self._entitle())
            self._made[name] = made
        return self._made[name]

    def _entitle(self) -> None:
        self._name_head()
        self._measure()

    def _name_head(self) -> None:
        """Have the head, if there is one, say where one is and stand for the hand that works."""
        head = self._round.get("head")
        if head is not None:
            head.title = self.current.title if self.current is not None else ""
            head.key_text = say("Back") if self.desk.screen == "rounds" else say("Elsewhere")
            head.key_icon = "back" if self.desk.screen == "rounds" else "places"
            head.left_handed = theme.left_handed

    def _elsewhere(self) -> None:
        """Go round the bench, or back to where one came from."""
        self.desk.go(self._before_rounds if self.desk.screen == "rounds" else "rounds")

    def _turn(self, *_: object) -> None:
        if self.desk.screen != "rounds":
            self._before_rounds = self.desk.screen
        self._note_draft()
        self.current = self.screen(self.desk.screen)
        if hasattr(self.current, "arrive"):
            self.current.arrive()
        self._measure()
        self._refresh()

    def _measure(self, *_: object) -> None:
        part = self.current.shown_part if self.current is not None else ""
        self._fit.turned(f"{self.desk.screen} {part}")
        if self.desk.fault_what and self.current is not None:
            self._stack()

    def _give_room(self) -> bool:
        """Tell a mistake in place of the screen, where a card above it leaves that too little."""
        card = self._round.get("fault")
        if card is None or card.parent is None:
            return False
        self._crowded.add(self._fit.view)
        self._stack()
        return True

    def _note_draft(self) -> None:
        """Keep which draft is looked at, so that it opens there again."""
        draft = f"{self.desk.draft:.0f}" if self.desk.screen == "trace" and self.desk.draft else ""
        if (self.desk.job.store.setting(OPEN_DRAFT) or "") != draft:
            self.desk.keep_setting(OPEN_DRAFT, draft)

    def _refresh(self, *_: object) -> None:
        theme.left_handed = self.desk.job.state.bench.hand == "left"
        self.current.refresh()
        self._entitle()
        self._watch()
        self._stack()
        self._fit.look()
        Window.allow_screensaver = not (self.desk.job.state.running_mixes or self.current.gloves_on)

    def _tick(self, *_: object) -> None:
        self._watch()
        self.current.tick()
        self._fit.look()

    def _dress(self) -> None:
        """Put on the look and the size of text that were chosen."""
        look = self.desk.job.store.setting(LOOK)
        scale = self.desk.job.store.setting(TEXT_SCALE)
        theme.look = look if look in LOOKS else theme.look
        with suppress(ValueError):  # a number once; whatever it is now, the text keeps its size
            theme.text_scale = float(scale) if scale else theme.text_scale
        theme.still = self.desk.device.settings.still

    # -- mixes that run elsewhere ------------------------------------------------------------------------

    def _watch(self) -> None:
        running = [] if self.desk.screen == "glueup" else self.desk.job.state.running_mixes
        mixes = {mix.number: mix for mix in running}
        if set(mixes) != set(self._watches):
            self._watches = {number: self._watch_for(number) for number in mixes}
            self._stack()
        if self._watches:
            follow_mixes(self.desk, self._watches)

    def _watch_for(self, number: int) -> Watch:
        plate = Watch(kind="text", test_name=f"watch_{number}")
        plate.bind(on_act=lambda _plate: self.desk.go("glueup", mix=number))
        return plate

    # -- what lies where --------------------------------------------------------------------------------

    def _stack(self) -> None:
        """Lay everything out from the top down, but only when something came or went."""
        top: list[Any] = [] if getattr(self.current, "bare", False) else [self._standing("head")]
        self._name_head()
        if self.desk.practice and self.desk.screen not in TEACHING:
            self._standing("practice").about = self.desk.screen
            top.append(self._standing("practice"))
        tells_itself = getattr(self.current, "tells_faults", False)
        if self.desk.reading_because and not (self.desk.practice or tells_itself):
            because = self.desk.reading_because
            self._standing("reading").text = say("For reading only: {because}", because=because)
            top.append(self._standing("reading"))
        top += [plate for _, plate in sorted(self._watches.items())]
        told = (self.desk.fault_where, self.desk.fault_what, self.desk.fault_todo)
        faulty = bool(self.desk.fault_what) and not tells_itself
        crowded = self._fit.view in self._crowded
        if faulty and not crowded:
            tell_on(self._standing("fault"), *told)
            top.append(self._standing("fault"))
        rows = self.ids.top
        if list(reversed(rows.children)) != top:
            rows.clear_widgets()
            for part in top:
                rows.add_widget(part)
        rows.padding = [theme.gap, theme.gap, theme.gap, 0] if top else 0
        shown = self.current
        if faulty and crowded:
            shown = self._standing("fault_sheet")
            tell_on(shown.notice, *told)
        elif self.desk.news and not (self.desk.practice or tells_itself):
            shown = self._standing("news_sheet")
            tell_on(shown.notice, *parts_of(self.desk.news[0]))
        if self.ids.place.children != [shown]:
            self.ids.place.clear_widgets()
            self.ids.place.add_widget(shown)
        self._fit.look()
