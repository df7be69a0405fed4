"""The sounds are our own, ask for attention without a fright, and never come alone."""

import io
import wave

import numpy as np
import pytest

from bench.resources import resource
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench
from tests.tools.sounds import SCORES, wav

PULSES = {"scrape": 1, "stirred": 2, "half": 2, "last-pieces": 3, "stop": 10}


def samples(name: str) -> tuple[np.ndarray, int]:
    with wave.open(str(resource("assets", "sounds", f"{name}.wav"))) as file:
        assert (file.getnchannels(), file.getsampwidth()) == (1, 2)
        data = np.frombuffer(file.readframes(file.getnframes()), dtype="<i2")
        return data / 32768.0, file.getframerate()


def pulses(name: str) -> list[np.ndarray]:
    """The stretches of sound between silences, found in the file alone."""
    level, rate_hz = samples(name)
    loud = np.convolve(np.abs(level), np.ones(200) / 200, mode="same") > 0.01
    edges = np.flatnonzero(np.diff(np.concatenate(([0], loud.astype(int), [0]))))
    return [level[a:b] for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a > 0.05 * rate_hz]


@pytest.mark.parametrize("name", SCORES)
def test_the_shipped_file_is_what_the_script_writes(name: str) -> None:
    """Samples may differ by a last bit from one machine's sine to another's."""
    with wave.open(io.BytesIO(wav(SCORES[name]))) as file:
        written = np.frombuffer(file.readframes(file.getnframes()), dtype="<i2") / 32768.0
    shipped, _ = samples(name)
    assert len(written) == len(shipped)
    assert np.abs(written - shipped).max() <= 2 / 32768


@pytest.mark.parametrize("name", SCORES)
def test_the_more_it_presses_the_more_pulses_it_has(name: str) -> None:
    """Three pulses for medium priority, five and five for high: IEC 60601-1-8, as recalled, no page seen."""
    assert PULSES[name] == len(pulses(name))


@pytest.mark.parametrize("name", SCORES)
def test_every_pulse_has_a_low_fundamental_and_four_harmonics_that_are_heard(name: str) -> None:
    """Fundamental 150 to 1,000 Hz, at least four harmonics in 300 to 4,000 Hz: IEC 60601-1-8."""
    _, rate_hz = samples(name)
    for pulse in pulses(name):
        spectrum = np.abs(np.fft.rfft(pulse * np.hanning(len(pulse)), n=8 * len(pulse)))
        hz = np.fft.rfftfreq(8 * len(pulse), 1 / rate_hz)
        middle, loudest = spectrum[1:-1], spectrum.max()
        is_peak = (middle > spectrum[:-2]) & (middle > spectrum[2:]) & (middle > 0.1 * loudest)
        peaks = np.flatnonzero(is_peak)
        heard_hz = hz[peaks + 1]
        fundamental_hz = heard_hz[0]
        assert 150 <= fundamental_hz <= 1000
        harmonics = [f for f in heard_hz[1:] if abs(f / fundamental_hz - round(f / fundamental_hz)) < 0.03]
        assert len([f for f in harmonics if 300 <= f <= 4000]) >= 4


@pytest.mark.parametrize("name", SCORES)
def test_a_pulse_rises_and_falls_softly_and_is_never_clipped(name: str) -> None:
    level, rate_hz = samples(name)
    assert np.abs(level).max() <= 0.75
    for pulse in pulses(name):
        first = np.abs(pulse[: int(0.004 * rate_hz)]).max()
        assert first < 0.4 * np.abs(pulse).max()


def test_a_machine_without_sound_loses_nothing_but_the_sound(stage: Stage, monkeypatch) -> None:
    from bench.screens import sounds

    monkeypatch.setattr(sounds, "_sound", lambda name: None)
    assert sounds.play("half") is False


def darkness(stage: Stage, path) -> float:
    from PIL import Image

    return 255 - float(np.asarray(Image.open(stage.picture(path)).convert("L")).mean())


def test_the_window_flashes_so_often_and_no_more_than_twice_a_second(stage: Stage) -> None:
    """Three a second is the limit of WCAG 2.2, 2.3.1."""
    from bench.screens.flash import flash, is_flashing

    flash(3)
    seen = []
    for _ in range(60):
        seen.append(is_flashing())
        stage.run(0.05, dt_s=0.05)
    turned_on = [k for k in range(1, len(seen)) if seen[k] and not seen[k - 1]] + ([0] if seen[0] else [])
    assert len(turned_on) == 3
    assert all(b - a >= 9 for a, b in zip(sorted(turned_on), sorted(turned_on)[1:], strict=False))
    assert not is_flashing()


def test_a_flash_lies_over_all_and_leaves_nothing_behind(stage: Stage, tmp_path) -> None:
    from bench.screens.flash import flash, is_flashing
    from bench.screens.theme import theme
    from bench.screens.widgets import Plate

    theme.still = True
    try:
        stage.show(Plate())
        before = darkness(stage, tmp_path / "before.png")
        flash(4)
        during = darkness(stage, tmp_path / "during.png")
        stage.run(3)
        after = darkness(stage, tmp_path / "after.png")
    finally:
        theme.still = False
    assert during > before + 60
    assert after == pytest.approx(before, abs=0.5)
    assert not is_flashing()


def test_a_flash_keeps_no_touch_from_what_lies_beneath(stage: Stage) -> None:
    from bench.screens.flash import flash
    from bench.screens.widgets import Act

    act = Act(text="Done", test_name="done")
    fired = []
    act.bind(on_act=lambda _act: fired.append(1))
    stage.show(act)
    flash(2)
    stage.tap("done")
    assert fired == [1]


def test_a_flash_ends_with_the_app(stage: Stage) -> None:
    from bench.screens.flash import flash, is_flashing

    with at_the_bench(stage):
        flash(4)
        assert is_flashing()
    assert not is_flashing()
    stage.run(1)
    assert not is_flashing()


def test_each_alarm_is_tried_once_by_its_name_before_the_gloves_go_on(stage: Stage, monkeypatch) -> None:
    from bench.job.acts import dry
    from bench.job.advice import advise
    from bench.screens.atcup import room
    from tests.fakes.gloves import complaints

    heard, flashed = [], []
    monkeypatch.setattr(room.sounds, "play", heard.append)
    monkeypatch.setattr(room, "flash", flashed.append)
    with at_the_bench(stage) as desk:
        number = advise(desk.job).section
        dry.lay(desk.job, number)
        desk.go("cup", section=number)
        stage.frame(3)
        stage.tap("hear")
        assert (heard, stage.find("hear").text) == (["half"], "Half")
        stage.tap("hear")
        stage.run(2)
        assert stage.find("hear").text == "Last pieces"
        assert complaints(stage) == {}
        stage.run(8)
        assert heard == ["half", "last pieces", "stop"]
        assert flashed == [1, 2, 4]
        assert stage.find("hear").text == "Try alarm"
        stage.tap("hear")
        desk.go("panel")
        stage.run(10)
        assert heard == ["half", "last pieces", "stop", "half"]
