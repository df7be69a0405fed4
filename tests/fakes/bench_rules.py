"""The rules of the bench's settings for the state machine of the job, told in any mixture."""

from hypothesis import strategies as st
from hypothesis.stateful import rule

from bench.job.acts import opening

SETTINGS = {
    "sure": st.sampled_from([0.75, 0.9, 0.95]),
    "hands": st.integers(1, 4),
    "prefer": st.sampled_from(["forms", "fewest"]),
    "pace_per_min": st.sampled_from([None, 0.5, 2.0, 20.0]),
    "patches_per_min": st.sampled_from([None, 0.2, 3.0]),
    "temperature_C": st.sampled_from([-10.0, 15.0, 21.0, 60.0]),
    "working_time_s": st.sampled_from([None, 60.0, 1500.0, 30_000.0]),
    "bed": st.sampled_from(["spread", "buttered"]),
    "bed_mm": st.sampled_from([0.1, 0.8, 10.0]),
    "waste": st.sampled_from([0.0, 0.1, 2.0]),
    "residue_g": st.sampled_from([0.0, 1.5, 40.0]),
    "scale_g": st.sampled_from([0.01, 1.0, 50.0]),
    "cumulative": st.booleans(),
    "half_life": st.sampled_from([None, 0.5, 12.0]),
    "hours_a_day": st.sampled_from([0.1, 3.0, 24.0]),
}


class BenchRules:
    """Mixed into a machine that has `job` and `attempt(act, ...)`."""

    @rule(by=st.sampled_from(["single", "patch", "face-down"]), patch_cm2=st.sampled_from([1.0, 4.0]))
    def transfer(self, by, patch_cm2):
        bench = self.job.state.bench.model_copy(update={"transfer": by, "patch_cm2": patch_cm2})
        self.attempt(opening.set_bench, bench)

    @rule(told=st.fixed_dictionaries({}, optional=SETTINGS))
    def set_bench(self, told):
        self.attempt(opening.set_bench, self.job.state.bench.model_copy(update=told))
