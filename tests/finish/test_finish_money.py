"""What a panel cost and an hour earned: none of it is needed, and what is missing is named, not guessed."""

import pytest

from bench.finish.money import (
    Amount,
    BadHours,
    BadPrice,
    Hours,
    Money,
    NoSuchWork,
    hours_of,
    priced,
    read_prices,
    require_price,
)
from bench.table import BadTable

GLASS = Amount("glass", "m²", 0.1, 0.3)
RESIN = Amount("white paste, resin", "g", 40.0, 60.0)
UNITS = {"glass": "m²", "white paste, resin": "g"}


def test_an_hour_earns_what_is_left_of_the_price_over_all_hours():
    money = Money(
        priced((GLASS, RESIN), {"glass": 100.0, "white paste, resin": 0.1}),
        (Hours("laying", 20.0), Hours("setting", 4.0, timed=True)),
        sold=530.0,
    )
    assert money.cost == pytest.approx(0.4 * 100 + 100 * 0.1)
    assert money.hourly == pytest.approx((530 - 50) / 24)
    assert money.unpriced == ()


def test_what_has_no_price_is_named_and_not_counted():
    money = Money(priced((GLASS, RESIN), {"glass": 100.0}), (), sold=None)
    assert (money.cost, money.unpriced, money.hourly) == (pytest.approx(40.0), ("white paste, resin",), None)


def test_told_hours_take_the_place_of_timed_ones_in_the_order_of_the_work():
    found = hours_of({"setting": 2.0, "mixing": 0.5}, {"setting": 3.0, "laying": 9.0, "grouting": 0.0})
    assert [(h.kind, h.hours, h.timed) for h in found] == [
        ("laying", 9.0, False),
        ("mixing", 0.5, True),
        ("setting", 3.0, False),
    ]


@pytest.mark.parametrize(
    ("told", "fault"),
    [({"sleeping": 1.0}, NoSuchWork), ({"laying": -1.0}, BadHours), ({"laying": 1e9}, BadHours)],
)
def test_hours_that_cannot_be_are_refused(told, fault):
    with pytest.raises(fault):
        hours_of({}, told)


def test_a_price_that_cannot_be_is_refused():
    for wrong in (-1.0, float("nan"), 1e12):
        with pytest.raises(BadPrice, match="leave it out"):
            require_price("glass", wrong)


def write(tmp_path, *rows):
    path = tmp_path / "prices.csv"
    path.write_text("\n".join(["material,unit,price", *rows]) + "\n", encoding="utf-8")
    return path


def test_prices_are_read_and_those_of_other_panels_passed_over(tmp_path):
    path = write(tmp_path, "glass,m²,92.50", '"white paste, resin",g,0.08', "gold leaf,sheet,4")
    assert read_prices(path, UNITS) == {"glass": 92.5, "white paste, resin": 0.08}


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("glass,m²,", "line 3, column price: no price for 'glass'"),
        ("glass,m²,dear", "'dear' is no price"),
        ("glass,m²,-2", "'-2' is no price"),
        ("glass,kg,3", "'glass' is reckoned by the m², not by 'kg'"),
        ("other,g,1", "'other' is given twice"),
    ],
)
def test_a_price_that_is_missing_or_wrong_is_told_with_its_line(tmp_path, row, said):
    path = write(tmp_path, "other,g,1", row)
    with pytest.raises(BadTable) as caught:
        read_prices(path, UNITS)
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)
