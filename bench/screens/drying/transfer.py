"""How pieces go over to the panel: asked once, before the first section is laid."""

from __future__ import annotations

from functools import partial
from typing import Any

from bench.job.acts import opening
from bench.job.settings import TRANSFER_OWED
from bench.screens.parts.paged import Offer
from bench.screens.parts.plates import Rows
from bench.screens.setup_choices import transfer_options


def taken_over(desk: Any, transfer: str) -> bool:
    """Take over how pieces go over to the panel, which is then owed no more; tell whether it could be."""
    bench, done = desk.job.state.bench, True
    if transfer != bench.transfer:
        done, _ = desk.attempt(opening.set_bench, bench.model_copy(update={"transfer": transfer}))
    if done:
        desk.keep_setting(TRANSFER_OWED, "")
    return done


class TransferPart(Rows):
    """Three ways; a tap on one tells `on_chosen(value)`. Setup changes it later."""

    __events__ = ("on_chosen",)

    def on_kv_post(self, _base: Any) -> None:
        self.ids.ways.offer(
            [Offer(o.text, o.says, f"transfer_{o.value}", partial(self.dispatch, "on_chosen", o.value))
             for o in transfer_options()]
        )  # fmt: skip

    def on_chosen(self, value: str) -> None:
        """Bound by the screen."""
