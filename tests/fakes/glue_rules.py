"""The rules of a glue-up for the state machine of the job: from the cup to the end, acts at random."""


from hypothesis import strategies as st
from hypothesis.stateful import rule

from bench.job.acts import (
    cup,
    glueup,
    opening,
    pouring,
)

WHY = ("stringy", "did not fit", "dropped", "changed my mind", "called away")


class GlueRules:
    """Mixed into a machine that has `job`, `clock`, `mix(pick)`, `attempt(act, ...)`, `follow_the_advice`."""

    @rule(minutes=st.sampled_from([4, 11, 24, 70]), left=st.integers(0, 5), why=st.sampled_from(WHY))
    def whole_glue_up(self, minutes, left, why):
        """The common way through, so that later stages are reached often."""
        self.follow_the_advice(21.0)
        self.attempt(cup.first_contact, self.mix(1))
        self.clock.advance(minutes * 60)
        self.attempt(glueup.count, self.mix(1), 3)
        self.close(1, left, why, 0)

    @rule(pick=st.integers(0, 99), grams=st.floats(-1, 60))
    def pour(self, pick, grams):
        self.attempt(cup.pour_resin, self.mix(pick), grams)

    @rule(pick=st.integers(0, 99), resin=st.floats(-1, 20), hardener=st.floats(-1, 20), more=st.floats(0, 3))
    def weigh(self, pick, resin, hardener, more):
        told = {"resin_g": resin, "hardener_g": hardener, "resin_added_g": more}
        self.attempt(pouring.keep_poured, self.mix(pick), **told)

    @rule(pick=st.integers(0, 99))
    def put_away(self, pick):
        self.attempt(cup.put_away, self.mix(pick))

    @rule(pick=st.integers(0, 99), late_s=st.sampled_from([0.0, 45.0, 300.0]))
    def contact(self, pick, late_s):
        self.attempt(cup.first_contact, self.mix(pick), back_dated_s=late_s)

    @rule(pick=st.integers(0, 99), earlier_s=st.sampled_from([10.0, 120.0]))
    def correct(self, pick, earlier_s):
        self.attempt(cup.correct_contact, self.mix(pick), earlier_by_s=earlier_s)

    @rule(pick=st.integers(0, 99), step=st.sampled_from(["spread", "set", "clean"]), ago_s=st.integers(0, 90))
    def step(self, pick, step, ago_s):
        self.attempt(glueup.begin_step, self.mix(pick), step, ago_s=float(ago_s))

    @rule(pick=st.integers(0, 99), placed=st.integers(-1, 80))
    def count(self, pick, placed):
        self.attempt(glueup.count, self.mix(pick), placed)

    @rule(pick=st.integers(0, 99), act=st.sampled_from([glueup.pause, glueup.resume, glueup.stringy]))
    def tell(self, pick, act):
        self.attempt(act, self.mix(pick))

    @rule(
        pick=st.integers(0, 99), left=st.integers(0, 12), why=st.sampled_from(WHY), ago_s=st.integers(0, 60)
    )
    def close(self, pick, left, why, ago_s):
        number = self.mix(pick)
        if number in self.job.state.mixes:
            self.attempt(glueup.close, number, left=left, why=why, ago_s=float(ago_s))
            self.attempt(opening.divide_anew)
