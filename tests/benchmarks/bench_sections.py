"""Measure the divider against METIS on generated panels. Run: python -m tests.benchmarks.bench_sections

Prints ratios, divider over METIS, for 'fewest' with all joints alike; then 'forms' over 'fewest'; then
re-division at ±5 % capacity; then the means over the panels of all sizes; then how the time grows. Borders
two tesserae wide are scored apart. Seeds from 1000 on were never used for tuning. With the word `rules`
it divides 500 panels instead and counts the hard rules broken, judged by tests/tools/legal.py. With the
word `optimum` it holds tiny panels against the true fewest, found by OR-tools.
"""

from __future__ import annotations

import argparse
import time

import numpy as np
from numpy.typing import NDArray

from bench.sections.divide import best_division, divide
from bench.sections.forms import HOW_DEAR, joint_kinds
from bench.sections.measures import lower_bound
from bench.sections.motifs import fitting_motifs, motifs
from bench.sections.redivide import redivide
from tests.benchmarks.section_cases import above_bound, case, cut_mm, cut_roundness, roundness, timed
from tests.tools.legal import bound_of, faults_of
from tests.tools.metis_peer import metis_division
from tests.tools.optimum import Undecided, fewest_sections, tiny
from tests.tools.panels import OUTLINES, with_capacity
from tests.tools.panels import ground as generated

LARGEST_FORMS, LARGEST_AGAIN = 5000, 2000  # tesserae


def against_metis(count: int, seeds: range, kinds: list[str], adhesives: int = 1) -> NDArray[np.float64]:
    """Print how the divider stands to METIS; return cut, shape and that without outline, a row a panel."""
    rows: list[tuple[float, ...]] = []
    for kind in kinds:
        for seed in seeds:
            it = case(kind, count, seed, adhesives=adhesives)
            ground = it.ground
            peer, peer_s = timed(lambda g=ground: metis_division(g))
            ours, ours_s = timed(lambda g=ground: best_division(g).label)
            _, first_s = timed(lambda g=ground: next(divide(g)).label)
            bound = lower_bound(ground)
            worst, missed = above_bound(ground, ours)
            rows.append(
                (
                    len(faults_of(ground, ours.tolist())),
                    int(ours.max()) + 1 - bound,
                    int(peer.max()) + 1 - bound,
                    cut_mm(ground, ours) / cut_mm(ground, peer),
                    roundness(it.panel, ours) / roundness(it.panel, peer),
                    cut_roundness(ground, ours) / cut_roundness(ground, peer),
                    ours_s / peer_s,
                    first_s / peer_s,
                    ours_s,
                    float(missed),
                    float(worst),
                )
            )
    table = np.array(rows, float)
    glued = ", two adhesives" if adhesives == 2 else ""
    names = f"{count} tesserae, {', '.join(kinds)}{glued}, {len(rows)} panels"
    mean = table.mean(axis=0)
    print(
        f"{names}\n  hard rules broken {table[:, 0].sum():.0f}; at the bound {np.mean(table[:, 1] == 0):.0%} "
        f"(missed with >= 0.05 % slack: {table[:, 9].sum():.0f}, a part by {table[:, 10].max():.0f} at most; "
        f"more than METIS on {(table[:, 1] > table[:, 2]).sum()}, "
        f"fewer on {(table[:, 1] < table[:, 2]).sum()})"
    )
    print(
        f"  ÷ METIS: cut {mean[3]:.3f}, shape {mean[4]:.3f} ({mean[5]:.3f} without the panel's outline), "
        f"time {mean[6]:.2f} (ours {mean[8]:.2f} s), first legal {mean[7]:.2f}",
        flush=True,
    )
    return table[:, 3:6]


def forms_against_fewest(count: int, seeds: range) -> list[float]:
    """Print how 'forms' stands to 'fewest'; return the shape of each panel."""
    whole_cut, crossing, over, shape, spent = np.zeros(2), np.zeros((2, 2)), [], [], []
    names = list(HOW_DEAR)
    for kind in ("square", "ell", "parts"):
        for seed in seeds:
            it = case(kind, count, seed, motifs=max(6, count // 180))
            forms, fewest = it.wished("forms"), it.wished("fewest")
            one, seconds = timed(lambda g=forms: best_division(g).label)
            two = best_division(fewest).label
            assert not faults_of(forms, one.tolist())
            patch = motifs(it.panel, forms)
            fitting = fitting_motifs(forms, patch)
            kinds = joint_kinds(it.panel, forms)
            a, b = forms.pair.T
            for i, label in enumerate((one, two)):
                apart = label[a] != label[b]
                whole_cut[i] += len(np.unique(patch[a][apart & (patch[a] == patch[b]) & fitting[patch[a]]]))
                inside = apart & (patch[a] == patch[b]) & ~fitting[patch[a]]
                crossing[i] += (
                    forms.joint_mm[inside & (kinds == names.index("across a row"))].sum(),
                    forms.joint_mm[inside].sum(),
                )
            bound = lower_bound(forms)
            over.append((int(one.max()) + 1) / bound - 1)
            shape.append(roundness(it.panel, one) / roundness(it.panel, two))
            spent.append(seconds)
    share = crossing[:, 0] / crossing[:, 1]
    print(
        f"forms ÷ fewest, {count} tesserae, {len(over)} panels: fitting motifs cut {whole_cut[0]:.0f} of "
        f"{whole_cut[1]:.0f} = {whole_cut[0] / whole_cut[1]:.2f}; share across rows {share[0]:.2f} of "
        f"{share[1]:.2f} = {share[0] / share[1]:.2f}; sections over the bound mean {np.mean(over):.1%}, most "
        f"{np.max(over):.1%}; shape {np.mean(shape):.3f}; {np.mean(spent):.2f} s",
        flush=True,
    )
    return shape


def again(count: int, seeds: range) -> None:
    stay, cut, more, spent = [], [], [], []
    for kind in ("square", "ring", "ell"):
        for seed in seeds:
            for prefer in ("forms", "fewest"):
                ground = case(kind, count, seed, motifs=8).wished(prefer)
                old = best_division(ground).label + 1
                for factor in (0.95, 1.05):
                    day = with_capacity(ground, factor)
                    start = time.perf_counter()
                    label, numbers = redivide(day, old, used_numbers=set())
                    spent.append(time.perf_counter() - start)
                    fresh = best_division(day).label
                    stay.append(float(np.mean(np.array(numbers)[label] == old)))
                    cut.append(cut_mm(day, label) / cut_mm(day, fresh))
                    more.append(len(numbers) - int(fresh.max()) - 1)
    print(
        f"re-division at ±5 %, {count} tesserae, {len(stay)} cases: {np.mean(stay):.1%} stay (least "
        f"{np.min(stay):.1%}, under 85 % in {np.sum(np.array(stay) < 0.85)}); "
        f"cut ÷ fresh {np.mean(cut):.3f}; "
        f"sections against fresh {np.mean(more):+.2f}; {np.mean(spent):.2f} s",
        flush=True,
    )


def growth(counts: list[int]) -> None:
    seconds = []
    for count in counts:
        ground = case("square", count, 1000).ground
        ours, ours_s = timed(lambda g=ground: best_division(g).label)
        peer, peer_s = timed(lambda g=ground: metis_division(g))
        seconds.append(ours_s)
        print(
            f"  {ground.count} tesserae: {ours_s:.2f} s = {ours_s / peer_s:.2f} of METIS; "
            f"cut ÷ METIS {cut_mm(ground, ours) / cut_mm(ground, peer):.3f}; sections "
            f"{int(ours.max()) + 1}, METIS {int(peer.max()) + 1}, bound {lower_bound(ground)}",
            flush=True,
        )
    slope = np.polyfit(np.log(counts), np.log(seconds), 1)[0]
    print(f"growth from {counts[0]} to {counts[-1]}: exponent {slope:.2f}")


def rules(panels: int, first_seed: int) -> int:
    """Divide panels of every outline, wish and spread of times; count what the judge finds broken."""
    broken, above, at_bound, sections, tesserae = [], 0, 0, 0, 0
    kinds = sorted(OUTLINES)
    for i in range(panels):
        rng = np.random.default_rng([first_seed + i, 41])
        kind, prefer = kinds[i % len(kinds)], ("fewest", "forms")[i // len(kinds) % 2]
        ground = generated(
            kind,
            int(rng.integers(40, 500)),
            first_seed + i,
            per_section=rng.uniform(6, 70),
            spread=rng.uniform(0.05, 1.1),
            prefer=prefer,
            adhesives=int(rng.integers(1, 3)),
            motifs=int(rng.integers(0, 6)),
        )
        label = best_division(ground, seed=i).label
        found = faults_of(ground, label.tolist())
        broken += [f"{kind} {first_seed + i} {prefer}: {fault}" for fault in found]
        bound = bound_of(ground)
        above += int(label.max(initial=-1)) + 1 > bound
        at_bound += int(label.max(initial=-1)) + 1 == bound
        sections += int(label.max(initial=-1)) + 1
        tesserae += ground.count
    print(*broken, sep="\n", end="\n" if broken else "")
    print(
        f"hard rules: {len(broken)} broken on {panels} panels ({tesserae} tesserae, {sections} sections); "
        f"at the bound {at_bound}, above it {above}",
        flush=True,
    )
    return len(broken)


def optimum(panels: int, first_seed: int, limit_s: float) -> None:
    """Hold tiny panels of little slack against the true fewest, found by listing sets and exact cover."""
    reached, missed, undecided, worst = 0, 0, 0, 0
    for seed in range(first_seed, first_seed + panels):
        ground = tiny(seed)
        ours, bound = int(best_division(ground).label.max()) + 1, lower_bound(ground)
        try:  # at the bound nothing need be proved
            true = bound if ours == bound else fewest_sections(ground, limit_s=limit_s)
        except Undecided:
            undecided += 1
            continue
        reached += ours == true
        missed += ours > true
        worst = max(worst, ours - true)
    decided = max(reached + missed, 1)
    print(
        f"tiny panels: {panels}, decided {reached + missed}; the true fewest on {reached} = "
        f"{reached / decided:.0%}, at most {worst} above; undecided {undecided} (one above the bound)",
        flush=True,
    )


def main() -> None:
    ask = argparse.ArgumentParser(description="Measure the divider against METIS.")
    ask.add_argument("campaign", nargs="?", choices=["rules", "optimum"], help="in place of METIS")
    ask.add_argument("--panels", type=int, default=500)
    ask.add_argument("--what", default="metis,forms,again,growth")
    ask.add_argument("--counts", default="500,1000,2000,5000,10000")
    ask.add_argument("--seeds", type=int, default=4)
    ask.add_argument("--first-seed", type=int, default=1000)
    ask.add_argument("--largest", type=int, default=100_000)
    told = ask.parse_args()
    if told.campaign == "rules":
        raise SystemExit(1 if rules(told.panels, told.first_seed) else 0)
    if told.campaign == "optimum":
        optimum(min(told.panels, 40), told.first_seed, limit_s=60.0)
        return
    seeds = range(told.first_seed, told.first_seed + told.seeds)
    wide = [kind for kind in OUTLINES if kind != "border"]
    one, two, forms = [], [], []
    for count in map(int, told.counts.split(",")):
        if "metis" in told.what:
            one.append(against_metis(count, seeds, wide))
            two.append(against_metis(count, seeds, ["square", "ell"], adhesives=2))
            against_metis(count, seeds, ["border"])
        if "forms" in told.what and count <= LARGEST_FORMS:
            forms += forms_against_fewest(count, seeds)
        if "again" in told.what and count <= LARGEST_AGAIN:
            again(count, seeds)
    for name, tables in (("one adhesive", one), ("two adhesives", two)):
        if tables:
            cut, shape, inside = np.concatenate(tables).mean(axis=0)
            print(f"all, {name}: cut ÷ METIS {cut:.3f}, shape {shape:.3f} (without outline {inside:.3f})")
    if forms:
        print(f"all sizes: shape, forms ÷ fewest {np.mean(forms):.3f}")
    if "growth" in told.what:
        growth([n for n in (1000, 3000, 10_000, 30_000, 100_000) if n <= told.largest])


if __name__ == "__main__":
    main()
