"""The rules of bottles for the state machine of the job: acts at random, and what must hold after each."""

from datetime import timedelta

import pytest
from hypothesis import strategies as st
from hypothesis.stateful import invariant, rule

from bench.job.acts import (
    stock,
    weigh_cup,
)
from bench.job.stock import stock_of


class StockRules:
    """Mixed into a machine that has `job`, `store`, `clock`, `mix(pick)` and `attempt(act, ...)`."""

    @rule(part=st.sampled_from(["resin", "hardener"]), net_g=st.sampled_from([1.5, 40.0]), past=st.booleans())
    def open_bottle(self, part, net_g, past):
        """A bottle of the panel's adhesive, sometimes past its date."""
        today = self.clock.utc().date()
        name, ago = self.job.product(self.job.state.bench.adhesive).name, timedelta(days=9 if past else -400)
        self.attempt(stock.open_bottle, name, part, net_g=net_g, best_before=today - ago, lot=f"L{net_g:g}")

    @rule(part=st.sampled_from(["resin", "hardener"]), net_g=st.sampled_from([0.0, 40.0]))
    def buy_bottle(self, part, net_g):
        name = self.job.product(self.job.state.bench.adhesive).name
        self.attempt(stock.buy_bottle, name, part, net_g=net_g, lot="B")

    @rule(number=st.integers(1, 4))
    def unseal_bottle(self, number):
        self.attempt(stock.unseal_bottle, number)

    @rule(number=st.integers(1, 4), left=st.sampled_from([None, 0.0, 0.7, 1.2]))
    def weigh_bottle(self, number, left):
        bottle = stock_of(self.store).bottles.get(number)
        if left is None or bottle is None:
            self.attempt(stock.empty_bottle, number)
        else:
            self.attempt(stock.weigh_bottle, number, left * bottle.net_g)

    @rule(pick=st.integers(0, 99), number=st.integers(1, 4), knowing=st.booleans())
    def take_from(self, pick, number, knowing):
        self.attempt(stock.take_from, self.mix(pick), number, knowing=knowing)

    @rule()
    def undo_stock(self):
        self.attempt(stock.undo_stock)

    @rule(pick=st.integers(0, 99), gross_g=st.floats(3, 9), how=st.sampled_from(["scraped", "over", "short"]))
    def weigh_cup(self, pick, gross_g, how):
        number = self.mix(pick)
        if number in self.job.state.mixes:
            self.attempt(weigh_cup.weigh_cup, number, gross_g=gross_g, tare_g=4.0, cup=how)

    @invariant()
    def bottles_balance_and_hold_no_less_than_nothing(self):
        for bottle in stock_of(self.store).bottles.values():
            assert bottle.left_g >= 0
            assert not bottle.is_sealed or bottle.taken_g == 0
            assert bottle.net_g + bottle.corrected_g - bottle.taken_g == pytest.approx(bottle.left_g)
