"""The rules of finishing for the state machine of the job: acts at random, and what must hold after each."""

from hypothesis import strategies as st
from hypothesis.stateful import invariant, rule

from bench.job.acts import cure, grouting, inking, zoning
from bench.job.finish_advice import finish_next
from bench.job.finish_days import when_lines


class FinishRules:
    """Mixed into a machine that has `job`, `clock`, `section(pick)` and `attempt(act, ...)`."""

    @rule()
    def all_hard(self):
        """The common way to finishing: what is set is tried by hand and found hard."""
        for section in self.job.state.with_stage("set"):
            self.attempt(cure.confirm_cure, section.number, "hard")

    def zone(self, pick):
        numbers = [0, *sorted(self.job.state.finish.zones)]
        return numbers[pick % len(numbers)]

    @rule(of=st.sampled_from(["colours", "groups", "one"]), sun=st.sampled_from(["direct", "indoors"]))
    def propose_zones(self, of, sun):
        self.attempt(zoning.tell_sun, sun)
        self.attempt(zoning.propose_zones, of)

    @rule(pick=st.integers(0, 9), tesserae=st.lists(st.integers(0, 30), max_size=9), sets=st.booleans())
    def draw_zone(self, pick, tesserae, sets):
        members = self.job.section(self.section(pick)).tesserae if sets else tesserae
        if pick % 3:
            self.attempt(zoning.draw_zone, members, f"zone of {pick}")
        else:
            self.attempt(zoning.add_to_zone, self.zone(pick), members)

    @rule(pick=st.integers(0, 9), name=st.sampled_from(["pale grey", "sand", ""]), ink=st.booleans())
    def choose_colour(self, pick, name, ink):
        act = zoning.choose_ink if ink else zoning.choose_grout
        self.attempt(act, self.zone(pick), name, (120, 100, 90))

    @rule(
        pick=st.integers(0, 9),
        act=st.sampled_from(
            [
                *(zoning.drop_zone, zoning.leave_ink, grouting.mask),
                *(grouting.read_cautions, inking.try_ink, inking.ink),
            ]
        ),
    )
    def finish_a_zone(self, pick, act):
        self.attempt(act, self.zone(pick))

    @rule(pick=st.integers(0, 9), powder_g=st.sampled_from([0.0, 40.0]), water_g=st.sampled_from([9.0, 99.0]))
    def grout(self, pick, powder_g, water_g):
        self.attempt(grouting.mask, self.zone(pick))
        self.attempt(grouting.read_cautions, self.zone(pick))
        self.attempt(grouting.grout, self.zone(pick), powder_g=powder_g, water_g=water_g)

    @rule(pick=st.integers(0, 9), dry_to=st.sampled_from(["tint", "seal"]))
    def try_dry(self, pick, dry_to):
        self.attempt(grouting.try_dry, self.zone(pick), dry_to)

    @rule(where=st.sampled_from(["", "indoors", "outdoors"]))
    def end(self, where):
        self.attempt(inking.hang, where) if where else self.attempt(inking.seal)

    @rule(hurried=st.booleans())
    def whole_finish(self, hurried):
        """The common way through to the wall, so that the seal is reached often."""
        if any(s.stage != "set" for s in self.job.state.sections.values()):
            return
        self.all_hard()
        for _ in range(12):
            found = finish_next(self.job)
            if found.act == "sun":
                self.attempt(zoning.tell_sun, "direct")
            elif found.act == "choose":
                self.attempt(zoning.choose_grout, found.zone, "pale grey", (205, 203, 198))
            elif found.act == "grout":
                self.grout(0, 40.0, 12.0)
                self.attempt(grouting.read_cautions, found.zone)
                self.attempt(grouting.grout, found.zone, powder_g=40.0, water_g=12.0)
            elif found.act == "seal":
                self.attempt(inking.seal)
            elif found.act == "wait" and not hurried:
                self.clock.advance(30 * 3600)
            elif found.act in ("mask", "try_ink", "ink"):
                acts = {"mask": grouting.mask, "try_ink": inking.try_ink, "ink": inking.ink}
                self.attempt(acts[found.act], found.zone)

    @invariant()
    def no_tessera_lies_in_two_zones_and_what_is_grouted_is_set(self):
        finish = self.job.state.finish
        members = [t for z in finish.zones.values() for t in z.tesserae]
        assert len(members) == len(set(members))
        stage = {t: s.stage for s in self.job.state.sections.values() for t in s.tesserae}
        for zone in finish.zones.values():
            assert zone.tesserae
            if zone.grouted is not None:
                assert {stage[t] for t in zone.tesserae} == {"set"}
                assert zone.grout is not None
            assert zone.inked is None or zone.grouted is not None

    @invariant()
    def the_order_of_finishing_holds_in_the_book(self):
        """No seal over a zone that is not grouted, no ink over a seal, nothing outdoors without one."""
        finish = self.job.state.finish
        if finish.sealed is not None:
            assert finish.zones
            for zone in finish.zones.values():
                assert zone.grouted_utc < finish.sealed_utc
                assert zone.inked_utc is None or zone.inked_utc < finish.sealed_utc
                assert zone.ink is None or zone.inked is not None
        if finish.hung is not None and finish.hung.where == "outdoors":
            assert finish.sealed_utc < finish.hung_utc

    @invariant()
    def what_is_next_in_finishing_can_be_said(self):
        assert finish_next(self.job).headline
        assert when_lines(self.job) or self.job.state.finish.hung
