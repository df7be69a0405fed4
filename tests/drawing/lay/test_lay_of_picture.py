"""Pictures that nobody here made, all the way to sections: scikit-image's, out of the installed package."""

import numpy as np
import pytest
from skimage import data

from bench.adhesive.product_file import find_product, shipped_products
from bench.book.events import BenchSet
from bench.drawing.lay import panel_of_study
from bench.drawing.photo import Picture
from bench.job.bedding import products_of
from bench.job.learning import Stated, learn
from bench.job.planning import plan_ground
from bench.job.sizing import Sizer


@pytest.mark.parametrize("name", ["coffee", "chelsea"])
def test_it_becomes_tesserae_and_sections_that_keep_the_promise(name):
    picture = Picture(getattr(data, name)(), None, name)
    panel = panel_of_study(picture, (300.0, 200.0), piece_mm=7.0)
    assert panel.tessera_count == pytest.approx(300 * 200 / 7.8**2, rel=0.08)
    bench = BenchSet(pace_per_min=5.0)
    products = products_of(panel, bench, find_product, shipped_products())
    known = learn([], stated=Stated(pace_per_min=5.0), now_utc=None)
    plan = plan_ground(Sizer(panel, bench, products, known))
    assert sorted(t for p in plan.promises for t in p.tesserae) == list(range(panel.tessera_count))
    assert min(p.in_time for p in plan.promises) >= 0.9 - 1e-9
    assert len(plan.promises) <= 1.2 * plan.lower_bound


def test_light_paint_is_laid_in_light_glass():
    """The lightness of the pieces follows that of the picture beneath them."""
    picture = Picture(data.chelsea(), None, "chelsea")
    panel = panel_of_study(picture, (300.0, 200.0))
    grey = picture.pixels.mean(axis=2)
    at = (panel.centroid_mm / (300.0, 200.0) * grey.shape[::-1]).astype(int)
    seen = grey[at[:, 1], at[:, 0]]
    assert np.corrcoef(seen, panel.colour.mean(axis=1))[0, 1] > 0.75
