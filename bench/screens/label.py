"""Label: read out what a label gives, one question at a time; kept as an adhesive's file and used at once.

Every answer is kept as soon as it is given, so that one may leave in the middle and go on another day.
"""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.adhesive.label import Label
from bench.adhesive.product_file import find_product, shipped_products
from bench.book import data_folder
from bench.fault import Fault
from bench.job.acts import opening
from bench.job.own_adhesives import keep_adhesive, keep_label, label_of, own_folder
from bench.screens.drawings import drawing_files
from bench.screens.fault_card import FaultCard
from bench.screens.labelling.codes import CodesView
from bench.screens.labelling.questions import (
    WAY,
    Question,
    answer_words,
    is_answered,
    question_of,
    questions_for,
)
from bench.screens.labelling.views import (
    BlendView,
    ChoiceView,
    LabelView,
    LettersView,
    NumbersView,
    WeighView,
)
from bench.screens.parts.paged import Offer
from bench.screens.screen import Screen
from bench.screens.stack import stack
from bench.speech import said, say

WHERE = "label"
VIEWS: dict[str, type[LabelView]] = {
    "letters": LettersView,
    "choice": ChoiceView,
    "numbers": NumbersView,
    "blend": BlendView,
    "codes": CodesView,
    "weigh": WeighView,
}


class LabelScreen(Screen):
    """Ask, show what was read out, keep it. `asked` is the key of the question that is shown, '' for none."""

    asked = StringProperty("")
    wide = NumericProperty(1)
    beside_text = StringProperty("")
    may_be_silent = BooleanProperty(False)
    back_text = StringProperty("")
    tells_faults = True  # a card above would leave the question no room

    def __init__(self, **kwargs: Any) -> None:
        self._views: dict[str, LabelView] = {}
        self._body: Any = None
        self._one: bool = False  # one question is looked at again, out of the list
        super().__init__(**kwargs)
        self.back_text = say("Back")
        self._parts = self.hold("begin", "whole", "beside", "silent", "back", "list", "anew")
        self._fault = FaultCard(desk=self.desk)
        self.desk.bind(fault_what=self._make_room)  # a method: a lambda would be held as long as the desk

    @property
    def label(self) -> Label:
        """What was read out so far, as the book's settings keep it."""
        return label_of(self.job.store)

    def arrive(self) -> None:
        """Go on where it was left; with nothing entered, ask what to begin with."""
        self._one = False
        label = self.label
        if not label.answers:
            self._offer_begin()
        else:
            self._go_on(label)

    def on_size(self, _screen: object, size: tuple[float, float]) -> None:
        self.wide = int(size[0] >= size[1])
        if self._body is not None:
            self._lay_out(self._body)

    # -- beginning ---------------------------------------------------------------------------------------

    def _offer_begin(self) -> None:
        shipped = say("A copy to change; the shipped one stays")
        copies = [(stem, shipped) for stem in shipped_products()]
        own = drawing_files([own_folder(data_folder())], ".toml")
        copies += [(str(path), say("Your own; the file before stays")) for path in own]
        new = say("A new label"), say("Read it out, one thing at a time")
        offers = [Offer(*new, "begin_new", self._begin_new)]
        for k, (name, says) in enumerate(copies):
            try:
                title = said(find_product(name).name)
            except Fault as fault:
                title, says = name, say("It cannot be read: {fault}", fault=fault.what)
            offers.append(Offer(title, says, f"begin_copy_{k}", lambda name=name: self._begin_copy(name)))
        self.asked, self.title = "", say("Which label?")
        self._parts["begin"].offer(offers)
        self._lay_out(self._parts["begin"])

    def _begin_new(self) -> None:
        self._ask(questions_for(Label())[0], Label())

    def _begin_copy(self, name: str) -> None:
        try:
            product = find_product(name)
        except Fault as fault:
            self.desk.tell(fault)
            return
        # the copy is the maker's own from here on, so it is called as it was read here
        self._keep_label(Label.of(product).told("name", said(product.name)))
        self._show_whole()

    def begin_anew(self) -> None:
        """Put aside what was entered."""
        self._keep_label(Label())
        self._offer_begin()

    def _keep_label(self, label: Label) -> None:
        """Keep what was entered; a book that cannot be written is told of, and the question stays."""
        try:
            keep_label(self.job.store, label)
        except Fault as fault:
            self.desk.tell(fault)

    # -- asking ------------------------------------------------------------------------------------------

    def _go_on(self, label: Label) -> None:
        """Ask the first question that is not answered; after the last show the whole."""
        open_ones = [q for q in questions_for(label) if not is_answered(label, q)]
        if open_ones:
            self._ask(open_ones[0], label)
        else:
            self._show_whole()

    def _ask(self, question: Question, label: Label, view: str = "") -> None:
        asked = questions_for(label)
        self.asked = question.key
        self.title = say("Label: {number} of {count}", number=asked.index(question) + 1, count=len(asked))
        self._question = question
        shown = self._view(view or question.view)
        shown.ask(question, label, self._told)
        self.may_be_silent = question.may_be_silent and not view
        self.back_text = say("Back")
        self._lay_out(shown)

    def _view(self, name: str) -> LabelView:
        if name not in self._views:
            self._views[name] = VIEWS[name]()
            self._views[name].bind(beside_text=lambda *_: self._lay_out(self._body))
        return self._views[name]

    def beside(self) -> None:
        """Do the act beside the view."""
        self._body.beside()

    def _told(self, value: Any, field: str = "") -> None:
        """Take an answer over; one that the file would not allow is told in the file's words."""
        question, label = self._question, self.label
        if field in ("weigh", "blend", "weighed"):
            self._ask(question, label, "numbers" if field == "weighed" else field)
            if field == "weighed":
                self._view("numbers").weigh()  # type: ignore[attr-defined]
            return
        if question.key == WAY:
            label = label.by(value)
        else:
            field = field or question.fields[0]
            label = label.told(field, value)
            fault = label.fault_at([field, *field.split(".")[:1]], WHERE)
            if fault is not None:
                self.desk.tell(fault)
                self._ask(question, self.label)
                return
        self.desk.clear_fault()
        self._keep_label(label)
        if self._one and all(is_answered(label, q) for q in questions_for(label)):
            self._show_whole()
        else:
            self._go_on_after(question, label)

    def _go_on_after(self, question: Question, label: Label) -> None:
        """Ask the next that is not answered, from here on first."""
        asked = questions_for(label)
        place = asked.index(question) + 1 if question in asked else 0
        ahead = [q for q in (*asked[place:], *asked[:place]) if not is_answered(label, q)]
        if ahead:
            self._ask(ahead[0], label)
        else:
            self._show_whole()

    def is_silent(self) -> None:
        """The label does not state it."""
        self._told(None)

    def back(self) -> None:
        """Go back one question, or to the list, or to Setup."""
        self.desk.clear_fault()
        label = self.label
        asked = questions_for(label)
        place = next((k for k, q in enumerate(asked) if q.key == self.asked), 0)
        if self._body is self._parts["begin"] or (not self.asked and self._body is self._parts["whole"]):
            self.desk.go("setup")
        elif isinstance(self._body, (WeighView, BlendView)):
            self._ask(self._question, label)
        elif self._one:
            self._show_whole()
        elif place > 0:
            self._ask(asked[place - 1], label)
        else:
            self._offer_begin()

    # -- the whole ---------------------------------------------------------------------------------------

    def _show_whole(self) -> None:
        """List everything that was read out; a tap looks at one again."""
        label = self.label
        self.asked, self.title, self._one = "", say("The label, as read out"), True
        offers = [
            Offer(answer_words(label, q), q.title, f"again_{q.key}", lambda key=q.key: self.ask_again(key))
            for q in questions_for(label)
        ]
        self.ids.answers.offer(offers)
        self._lay_out(self._parts["whole"])

    def ask_again(self, key: str) -> None:
        """Look at one question again; one that this label does not raise asks nothing."""
        label = self.label
        for question in questions_for(label):
            if question.key == key:
                self._ask(question, label)

    def keep(self) -> None:
        """Keep it as a file and work with it from now on; what is wrong with the whole is asked again."""
        label = self.label
        try:
            product = label.product(WHERE)
        except Fault as fault:
            self.desk.tell(fault)
            question = question_of(label, getattr(fault, "field", ""))
            if question is not None:
                self._ask(question, label)
            return
        try:
            path = keep_adhesive(own_folder(data_folder()), product)
        except Fault as fault:
            self.desk.tell(fault)
            return
        bench = self.job.state.bench.model_copy(update={"adhesive": str(path)})
        self.soon(say("Dividing anew …"), lambda: self._use(bench))

    def _use(self, bench: Any) -> None:
        done, _ = self.desk.attempt(opening.set_bench, bench)
        if done:
            self._keep_label(Label())
            self.desk.go("setup")

    # -- what lies where ---------------------------------------------------------------------------------

    def _make_room(self, *_: object) -> None:
        if self._body is not None:
            self._lay_out(self._body)

    def _lay_out(self, body: Any) -> None:
        self._body = body
        parts, ids = self._parts, self.ids
        self.beside_text = body.beside_text if isinstance(body, LabelView) else ""
        acts = [parts["back"]]
        acts += [parts["silent"]] if isinstance(body, LabelView) and self.may_be_silent else []
        acts += [parts["beside"]] if self.beside_text else []
        acts += [parts["anew"]] if body is parts["whole"] else []
        acts += [parts["list"]] if isinstance(body, LabelView) and not self._one else []
        stack(ids.acts, [] if self.desk.fault_what else acts)
        stack(ids.place, [self._fault if self.desk.fault_what else body])
