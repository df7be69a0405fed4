"""Divide bare ground beside the screens: the search runs on a thread, its result comes between two frames."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

from kivy.clock import Clock

from bench.fault import Fault
from bench.job.acts.opening import keep_plan, prepare_division
from bench.job.acts.returning import keep_after_away
from bench.job.job import Job
from bench.job.key_words import AFTER_GLUE_UP
from bench.job.planning import plan_ground

Keep = Callable[[Job, Any, str], object]


def after_glue_up(desk: Any) -> None:
    """Divide with what was just learned."""
    divide(desk, lambda job, plan, newest: keep_plan(job, plan, why=AFTER_GLUE_UP, newest_act=newest))


def after_away(desk: Any) -> None:
    """Divide for hands that are less sure than they were."""
    divide(desk, lambda job, plan, newest: keep_after_away(job, plan, newest_act=newest))


def divide(desk: Any, keep: Keep) -> None:
    """Divide all bare ground of the panel on the desk, where there is any.

    The figures are read here; a book that cannot be learned from is told of. keep: writes the plan that was
    found, given the job, the plan and the newest act that it knows of. Nothing is kept once another panel
    is on the desk.
    """
    job = desk.job
    try:
        work = prepare_division(job)
    except Fault as found:
        desk.tell(found)
        return
    if work is None:
        return
    newest_act = job.state.act_ids[-1]
    desk.dividing = True

    def search() -> None:
        plan, fault = None, None
        try:
            plan = plan_ground(work.sizer, **work.ground)
        except Fault as found:
            fault = found
        Clock.schedule_once(lambda _dt: back(plan, fault))

    def back(plan: Any, fault: Fault | None) -> None:
        if job is not desk.job:
            return  # another panel is on the desk: what was found is dropped
        desk.dividing = False
        if fault is not None:
            desk.tell(fault)
        elif plan is not None:
            try:
                keep(job, plan, newest_act)
            except Fault as found:
                desk.tell(found)
            desk.version += 1

    threading.Thread(target=search, name="dividing", daemon=True).start()
