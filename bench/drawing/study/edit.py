"""Change a study by hand: make two regions one, part one, name it, say how it is laid, draw an area.

Each returns a new study; the old one stays as it is. Regions are called by their number, from 1.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bench.drawing.names import unique_names
from bench.drawing.panel import FloatArray
from bench.drawing.study.faults import AllOneShade, AreaTooSmall, NoSuchRegion, NotBeside
from bench.drawing.study.model import Region, Study, pixel_mm
from bench.drawing.study.propose import Proposal

Members = NDArray[np.bool_]


def region_at(study: Study, x_mm: float, y_mm: float) -> int:
    """Return the number of the region at a place; 0 where there is none."""
    column, row = np.floor(np.array([x_mm, y_mm]) / pixel_mm(study.size_mm, study.labels.shape)).tolist()
    rows, columns = study.labels.shape
    inside = 0 <= row < rows and 0 <= column < columns
    return int(study.labels[int(row), int(column)]) if inside else 0


def middle_of(study: Study, region: int) -> tuple[float, float]:
    """Return the place of a region that is nearest to its middle, in mm. Raises NoSuchRegion."""
    _check(study, region)
    places = np.argwhere(study.labels == region)[:, ::-1]
    nearest = places[np.hypot(*(places - places.mean(axis=0)).T).argmin()]
    x, y = ((nearest + 0.5) * pixel_mm(study.size_mm, study.labels.shape)).tolist()
    return x, y


def merged(study: Study, one: int, other: int) -> Study:
    """Return the study with two neighbouring regions as one, laid as the larger.

    Raises NoSuchRegion or NotBeside.
    """
    _check(study, one, other)
    a, b = study.labels == one, study.labels == other
    if one == other or not _touch(a, b):
        raise NotBeside(study.name, study.regions[one - 1].name, study.regions[other - 1].name)
    keep, gone = (one, other) if a.sum() >= b.sum() else (other, one)
    labels = np.where(study.labels == gone, keep, study.labels)
    return _without_empty(dataclasses.replace(study, labels=labels.astype(np.int32)))


def split(study: Study, region: int, proposal: Proposal) -> Study:
    """Return the study with a region parted where its paint differs most, each part in its own paint's glass.

    The smaller part becomes the last region, the larger keeps the name; pieces and rows stay. Raises
    NoSuchRegion, or AllOneShade where the paint shows no two shades.
    """
    _check(study, region)
    members = study.labels == region
    half = proposal.patches.halves(members)
    if not half.any():
        raise AllOneShade(study.name, study.regions[region - 1].name)
    if half.sum() > members.sum() / 2:
        half = members & ~half
    old = study.regions[region - 1]
    as_before = {"aspect": old.aspect, "flow": old.flow}
    larger, smaller = (proposal.region(some, old.piece_mm) for some in (members & ~half, half))
    changed = changed_region(study, region, larger.model_copy(update={**as_before, "name": old.name}))
    return _with(changed, half, smaller.model_copy(update=as_before))


def renamed(study: Study, region: int, name: str) -> Study:
    """Return the study with a region's name changed; a name already taken gets a number."""
    _check(study, region)
    return changed_region(study, region, study.regions[region - 1].model_copy(update={"name": name}))


def changed_region(study: Study, region: int, to: Region) -> Study:
    """Return the study with one region to be laid in another way. Raises NoSuchRegion."""
    _check(study, region)
    regions = [*study.regions[: region - 1], to, *study.regions[region:]]
    return dataclasses.replace(study, regions=_named(regions))


def with_area(study: Study, outline_mm: ArrayLike, region: Region) -> Study:
    """Return the study with an area drawn by hand, (p, 2) in mm, as a region of its own over what lay there.

    Nothing is laid beyond the panel's outline, so nothing is drawn there. Raises AreaTooSmall.
    """
    members = covered(study, np.asarray(outline_mm, float)) & (study.labels > 0)
    if not members.any():
        raise AreaTooSmall(study.name)
    return _without_empty(_with(study, members, region))


def covered(study: Study, outline_mm: FloatArray) -> Members:
    """Return which pixels have their middle inside of a closed outline, (rows, columns); even-odd."""
    rows, columns = study.labels.shape
    inside = np.zeros((rows, columns), bool)
    if len(outline_mm) < 3 or not np.isfinite(outline_mm).all():
        return inside
    edge = outline_mm / pixel_mm(study.size_mm, (rows, columns))
    ends = np.roll(edge, -1, axis=0)
    across = np.arange(columns) + 0.5
    for row in range(max(0, int(edge[:, 1].min())), min(rows, int(np.ceil(edge[:, 1].max())))):
        y = row + 0.5
        spans = (edge[:, 1] > y) != (ends[:, 1] > y)
        a, b = edge[spans], ends[spans]
        x = np.sort(a[:, 0] + (y - a[:, 1]) * (b[:, 0] - a[:, 0]) / (b[:, 1] - a[:, 1]))
        inside[row] = np.searchsorted(x, across) % 2 == 1
    return inside


def _with(study: Study, members: Members, region: Region) -> Study:
    labels = study.labels.copy()
    labels[members] = len(study.regions) + 1
    return dataclasses.replace(study, labels=labels, regions=_named([*study.regions, region]))


def _named(regions: list[Region]) -> tuple[Region, ...]:
    names = unique_names([region.name for region in regions])
    return tuple(r.model_copy(update={"name": n}) for r, n in zip(regions, names, strict=True))


def _without_empty(study: Study) -> Study:
    """Drop regions that lie nowhere any more; the others keep their order."""
    lies = np.bincount(study.labels.ravel(), minlength=len(study.regions) + 1) > 0
    lies[0] = True
    place = (np.cumsum(lies) - 1).astype(np.int32)
    regions = tuple(r for k, r in enumerate(study.regions, start=1) if lies[k])
    return dataclasses.replace(study, labels=place[study.labels], regions=regions)


def _touch(one: Members, other: Members) -> bool:
    beside = (one[:, 1:] & other[:, :-1]).any() or (one[:, :-1] & other[:, 1:]).any()
    return bool(beside or (one[1:] & other[:-1]).any() or (one[:-1] & other[1:]).any())


def _check(study: Study, *regions: int) -> None:
    for region in regions:
        if not 1 <= region <= len(study.regions):
            raise NoSuchRegion(study.name, region, len(study.regions))
