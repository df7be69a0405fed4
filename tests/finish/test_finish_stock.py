"""Sheets on hand: the table as it is documented, and every way that it can be wrong, told in one line."""

import pytest

from bench.commands import main
from bench.fault import Fault
from bench.finish.cut_waste import learned_cut_waste, read_used
from bench.finish.glass import glass_list
from bench.finish.stock import on_hand_mm2, read_stock
from bench.table import BadTable
from tests.fakes.drawings import grid_svg
from tests.fakes.glasses import squares

HEAD = "glass,width_mm,height_mm,sheets\n"
BLUE = (42, 92, 170)


def stock(tmp_path, text: str | bytes):
    path = tmp_path / "stock.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_stock(path)


def test_a_row_is_the_glass_of_its_kind_and_colour_whatever_else_it_is_called(tmp_path):
    rows = stock(
        tmp_path, HEAD + "dark blue #2a5caa,300,200,2\nthe clear one #2A5CAA,100,100,1\n#2b5dab,50,50,4\n"
    )
    listed = glass_list(squares([BLUE, BLUE, BLUE], kinds=[0, 0, 1]))
    held, strangers = on_hand_mm2(listed, rows)
    assert held == [2 * 60_000.0, 10_000.0]
    assert [row.name for row in strangers] == ["#2b5dab"]
    held, strangers = on_hand_mm2(listed, rows, like_de=1.0)
    assert held == [2 * 60_000.0 + 4 * 2500.0, 10_000.0]
    assert strangers == []


def test_a_table_of_nothing_holds_nothing(tmp_path):
    assert stock(tmp_path, HEAD) == []
    assert on_hand_mm2(glass_list(squares([BLUE])), []) == ([0.0], [])


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "empty"),
        ("glass;width_mm;height_mm;sheets\n#2a5caa;300;300;1\n", "semicolons"),
        ("glass\twidth_mm\theight_mm\tsheets\n", "a tab"),
        ("glass,width_mm,height_mm\n", "no column sheets"),
        ("glass,glass,width_mm,height_mm,sheets\n", "given twice"),
        (HEAD + "blue,300,300,1\n", "'blue' names no glass"),
        (HEAD + "#2a5cag,300,300,1\n", "names no glass"),
        (HEAD + "#2a5caa,300,300,-1\n", "column sheets"),
        (HEAD + "#2a5caa,300,300,1.5\n", "column sheets"),
        (HEAD + '#2a5caa,"300,5",300,1\n', "column width_mm"),
        (HEAD + "#2a5caa,-300,300,1\n", "column width_mm"),
        (HEAD + "#2a5caa,300,nan,1\n", "column height_mm"),
        (HEAD + "#2a5caa,3,300,1\n", "no size of a sheet"),
        (HEAD + "#2a5caa,300,300\n", "3 cells under 4 columns"),
        (HEAD + '"#2a5caa,300,300,1\n', "mend the quotes"),
        (HEAD.encode() + b"\xff\xfe,300,300,1\n", "not UTF-8"),
    ],
)
def test_a_table_that_cannot_be_read_says_where_and_what_to_do(tmp_path, text, told):
    with pytest.raises(Fault) as found:
        stock(tmp_path, text)
    assert told in str(found.value)
    assert "stock.csv" in str(found.value)
    assert found.value.todo
    assert "\n" not in str(found.value)


def test_a_file_that_is_not_there(tmp_path):
    with pytest.raises(Fault, match="no such file"):
        read_stock(tmp_path / "nowhere.csv")


def test_what_was_cut_up_and_laid_before_teaches_the_waste(tmp_path, capsys):
    """Hand-worked: (2700·0.35 + 1350) / (2700 + 5400) = 0.2833 of square centimetres used."""
    used = tmp_path / "used.csv"
    used.write_text("used_cm2,laid_cm2\n2700,2100\n2700,1950\n")
    assert learned_cut_waste(read_used(used)) == pytest.approx((2700 * 0.35 + 1350) / 8100)
    drawing = tmp_path / "grid.svg"
    drawing.write_bytes(grid_svg(12, 6))
    assert main(["glass", str(drawing), "--used", str(used)]) == 0
    assert "28 % of it lost in cutting" in capsys.readouterr().out


@pytest.mark.parametrize("row", ["100,200", "0,0", "-5,-6", "a lot,1", "100", "1e400,1"])
def test_more_laid_than_was_cut_up_is_refused_by_its_line(tmp_path, row):
    used = tmp_path / "used.csv"
    used.write_text(f"used_cm2,laid_cm2\n300,200\n{row}\n")
    with pytest.raises(BadTable, match="line 3"):
        read_used(used)
