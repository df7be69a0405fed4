"""Sheets on hand: the table as it is documented, and every way that it can be wrong, told in one line."""

import pytest

from bench.fault import Fault
from bench.finish import glass_list, on_hand_mm2, read_stock
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
