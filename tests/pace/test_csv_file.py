"""The table of glue-ups: read back as written, and every mistake named by file, line and column."""

import os
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.pace.csv_file import COLUMNS, MOST_ROWS, read_glue_ups, write_glue_ups
from bench.pace.glueup import MOST_HANDS, BadGlueUp, GlueUp
from bench.table import BadTable

HEADER = ",".join(COLUMNS)
GOOD = "2025-03-01T14:05:00Z,10,40,2,700,30,21.5,930,,yes"


def table(tmp_path, *lines):
    path = tmp_path / "glue-ups.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def test_a_row_is_read_column_by_column(tmp_path):
    expected = GlueUp(
        datetime(2025, 3, 1, 14, 5, tzinfo=UTC), 10, 40, 2, 700.0, 30.0, 21.5, 930.0, None, True, closed=True
    )
    assert [expected] == read_glue_ups(table(tmp_path, HEADER, GOOD))


def test_a_header_alone_is_no_glue_ups(tmp_path):
    assert read_glue_ups(table(tmp_path, HEADER)) == []


def test_rows_are_given_oldest_first_whatever_their_order_zone_or_blank_lines(tmp_path):
    older = GOOD.replace("2025-03-01T14:05:00Z", "2025-03-01T14:05:00+02:00")
    read = read_glue_ups(table(tmp_path, HEADER, GOOD, "", ",,,,,,,,,", older))
    assert [g.started_utc.hour for g in read] == [12, 14]


def test_columns_may_stand_in_any_order_beside_others_and_after_a_byte_order_mark(tmp_path):
    path = table(tmp_path, "\ufeffnote," + HEADER, "a fine day," + GOOD)
    assert read_glue_ups(path)[0].medium == 40


def test_a_row_neither_finished_nor_stringy_nor_all_placed_was_never_closed(tmp_path):
    read = read_glue_ups(table(tmp_path, HEADER, GOOD.replace("930,,yes", ",,no")))
    assert [g.closed for g in read] == [False]


@pytest.mark.parametrize(("mark", "says"), [(";", "semicolons"), ("\t", "a tab")])
def test_cells_parted_otherwise_are_named_as_what_they_are(tmp_path, mark, says):
    with pytest.raises(BadTable, match=says):
        read_glue_ups(table(tmp_path, HEADER.replace(",", mark), GOOD.replace(",", mark)))


def test_none_may_start_after_now_where_now_is_known(tmp_path):
    path = table(tmp_path, HEADER, GOOD)
    assert len(read_glue_ups(path, now_utc=datetime(2025, 3, 1, 14, 6, tzinfo=UTC))) == 1
    with pytest.raises(BadTable, match="starts in the future"):
        read_glue_ups(path, now_utc=datetime(2025, 3, 1, 14, 4, tzinfo=UTC))


def with_(column, value):
    cells = GOOD.split(",")
    cells[COLUMNS.index(column)] = value
    return ",".join(cells)


NO_PIECES = "2025-03-01T14:05:00Z,0,0,0,700,30,21.5,930,,yes"


@pytest.mark.parametrize(
    ("row", "column", "what"),
    [
        (NO_PIECES, "small, medium, large", "a glue-up of 0 pieces"),
        (with_("small", "-3"), "small", "'-3' is no whole number"),
        (with_("small", "3.5"), "small", "'3.5' is no whole number"),
        (with_("small", "1_0"), "small", "'1_0' is no whole number"),
        (with_("small", "٣"), "small", "is no whole number"),
        (with_("large", ""), "large", "'' is no whole number"),
        (with_("medium", "999999999"), "medium", "999999999 pieces"),
        (with_("seconds", "0"), "seconds", "a glue-up of 0 s"),
        (with_("seconds", "-5"), "seconds", "a glue-up of -5 s"),
        (with_("seconds", "36000"), "seconds", "10 h is longer than any glue-up"),
        (with_("seconds", "nan"), "seconds", "'nan' is no number"),
        (with_("seconds", "inf"), "seconds", "'inf' is no number"),
        (with_("seconds", "1e999"), "seconds", "'1e999' is no number"),
        (with_("seconds", "9" * 50_000 + "x"), "seconds", f"'{'9' * 37}...' is no number"),
        (with_("seconds", "ten"), "seconds", "'ten' is no number"),
        (with_("seconds", ""), "seconds", "'' is no number"),
        (with_("paused_s", "-1"), "paused_s", "-1 s cannot be"),
        (with_("temperature_C", "70"), "temperature_C", "a room of 70 °C"),
        (with_("temperature_C", "warm"), "temperature_C", "'warm' is no number"),
        (with_("finished_after_s", "500"), "finished_after_s", "finished 500 s after first contact"),
        (with_("finished_after_s", "40000"), "finished_after_s", "11.1 h is longer"),
        (with_("stringy_after_s", "-60"), "stringy_after_s", "-60 s cannot be"),
        (with_("stringy_after_s", "0"), "stringy_after_s", "stringy at first contact"),
        (with_("all_placed", "perhaps"), "all_placed", "'perhaps' is no answer"),
        (with_("all_placed", ""), "all_placed", "'' is no answer"),
        (with_("started_utc", "2025-03-01T14:05:00"), "started_utc", "has no time zone"),
        (with_("started_utc", "yesterday"), "started_utc", "'yesterday' is no time"),
        (with_("started_utc", "2025-02-30T14:05:00Z"), "started_utc", "is no time"),
        (with_("started_utc", "0001-01-01T00:00:00+14:00"), "started_utc", "is no time"),
        (GOOD + ",7", "", "11 cells under 10 columns"),
        ("2025-03-01T14:05:00Z,10", "", "2 cells under 10 columns"),
        ('"' + GOOD, "", "no CSV"),
    ],
)
def test_a_row_that_cannot_be_is_named_by_file_line_and_column(tmp_path, row, column, what):
    path = table(tmp_path, HEADER, GOOD.replace("14:05", "08:05"), row)
    with pytest.raises(BadTable) as told:
        read_glue_ups(path)
    assert (path, 3 if what != "no CSV" else told.value.line, column) == (
        told.value.path,
        told.value.line,
        told.value.column,
    )
    assert what in told.value.what
    assert str(told.value).startswith(f"{path}, line ")
    assert "\n" not in str(told.value)
    assert told.value.todo


def test_two_glue_ups_of_one_pair_of_hands_may_not_overlap(tmp_path):
    path = table(tmp_path, HEADER, GOOD, GOOD.replace("14:05:00", "14:20:29"))
    with pytest.raises(BadTable, match="starts while the glue-up of line 2 still goes on"):
        read_glue_ups(path)
    after = table(tmp_path, HEADER, GOOD, GOOD.replace("14:05:00", "14:20:30"))
    assert len(read_glue_ups(after)) == 2


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"", "empty"),
        (b"\xef\xbb\xbf \n", "empty"),
        (HEADER.encode() + b"\n\xff\xfe", "not UTF-8 text"),
        (HEADER.replace(",paused_s", "").encode(), "no column paused_s"),
        (HEADER.encode() + b",small\n", "column given twice"),
        (b"\x00\x01\x02PNG", "no column"),
    ],
)
def test_a_file_that_is_no_table_of_glue_ups_is_refused(tmp_path, data, what):
    path = tmp_path / "bad.csv"
    path.write_bytes(data)
    with pytest.raises(BadTable, match=what):
        read_glue_ups(path)


def test_no_file_and_a_folder_are_refused(tmp_path):
    with pytest.raises(BadTable, match="no such file"):
        read_glue_ups(tmp_path / "none.csv")
    with pytest.raises(BadTable, match="cannot be read"):
        read_glue_ups(tmp_path)


def test_a_pipe_that_could_go_on_without_end_is_refused_unread(tmp_path):
    pipe = tmp_path / "pipe.csv"
    os.mkfifo(pipe)
    with pytest.raises(BadTable, match="not a file"):
        read_glue_ups(pipe)


def test_more_rows_than_anyone_ever_set_are_refused(tmp_path):
    row = ",10,40,2,700,30,21.5,930,,yes"
    path = table(tmp_path, HEADER, *[row] * (MOST_ROWS + 1))
    with pytest.raises(BadTable, match=f"more than {MOST_ROWS} glue-ups") as told:
        read_glue_ups(path)
    assert told.value.line == MOST_ROWS + 2


def test_what_is_not_learned_from_is_not_written():
    good = GlueUp(None, 0, 40, 0, 700.0, 0.0, 21.0, 930.0, None, True)
    unsure = replace(good, learn_pace=False, learn_life=False)
    of_nothing = replace(good, medium=0, learn_pace=False)
    assert write_glue_ups([unsure, good, of_nothing]) == write_glue_ups([good])


@st.composite
def glue_ups(draw):
    hands = draw(st.integers(1, MOST_HANDS))
    setting, paused = draw(st.floats(1, 9000)), draw(st.floats(0, 3000))
    finished = draw(st.none() | st.floats(0, 5000).map(lambda more: setting + paused + more))
    stringy = draw(st.none() | st.floats(1, 20000))
    placed = draw(st.booleans())
    return GlueUp(
        None,
        draw(st.integers(0, 300)),
        draw(st.integers(1, 300)),
        draw(st.integers(0, 300)),
        setting * hands,
        paused,
        draw(st.floats(-10, 45)),
        finished,
        stringy,
        placed,
        closed=placed or finished is not None or stringy is not None,
        hands=hands,
    )


@settings(max_examples=40, deadline=None)
@given(made=st.lists(glue_ups(), max_size=5), dated=st.booleans())
def test_what_is_written_reads_back_the_same(tmp_path_factory, made, dated):
    if dated:
        start = datetime(2025, 3, 1, 8, tzinfo=UTC)
        made = [replace(g, started_utc=start + timedelta(days=k, seconds=k)) for k, g in enumerate(made)]
    path = tmp_path_factory.mktemp("tables") / "book.csv"
    path.write_text(write_glue_ups(made), encoding="utf-8")
    assert made == read_glue_ups(path)


def test_several_pairs_of_hands_set_in_less_than_one_would_have_taken(tmp_path):
    (read,) = read_glue_ups(table(tmp_path, f"{HEADER},hands", f"{GOOD.replace('700', '1400')},2"))
    assert (read.hands, read.seconds, read.setting_s) == (2, 1400.0, 700.0)
    assert read.clock_s == 930.0
    with pytest.raises(BadTable, match="setting and pauses alone took 1430 s"):
        read_glue_ups(table(tmp_path, HEADER, GOOD.replace("700", "1400")))
    with pytest.raises(BadTable, match="5 pairs of hands cannot be"):
        read_glue_ups(table(tmp_path, f"{HEADER},hands", f"{GOOD},5"))


def test_a_glue_up_whose_clock_jumped_is_kept_with_whatever_times_it_has():
    told = {"learn_pace": False, "learn_life": False}
    kept = GlueUp(None, 0, 40, 0, 1e7, 0.0, 21.0, 5.0, None, True, **told)
    assert kept.seconds == 1e7
    with pytest.raises(BadGlueUp, match="longer than any glue-up"):
        GlueUp(None, 0, 40, 0, 1e7, 0.0, 21.0, 5.0, None, True, learn_pace=False)
