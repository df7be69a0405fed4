"""The maker's own adhesives: kept as files that nothing overwrites, and used at once."""

import pytest

from bench.adhesive.label import Label
from bench.adhesive.product_file import find_product, parse_product
from bench.job.acts import opening
from bench.job.own_adhesives import (
    AdhesiveNotKept,
    file_stem,
    keep_adhesive,
    keep_label,
    label_of,
    own_folder,
)
from tests.fakes.products import example

PASTE = parse_product(example(), "x")


def test_the_file_reads_as_the_product_and_is_named_after_it(tmp_path):
    path = keep_adhesive(own_folder(tmp_path), PASTE)
    assert path == tmp_path / "adhesives" / "example-paste-white.toml"
    assert find_product(str(path)) == PASTE


def test_a_file_is_never_overwritten_and_the_same_is_not_kept_twice(tmp_path):
    first = keep_adhesive(tmp_path, PASTE)
    kept = first.read_bytes()
    other = keep_adhesive(tmp_path, PASTE.model_copy(update={"colour": "clear"}))
    assert (first.read_bytes(), other.name) == (kept, "example-paste-white-2.toml")
    assert keep_adhesive(tmp_path, PASTE) == first
    assert sorted(path.name for path in tmp_path.iterdir()) == [other.name, first.name]


def test_what_was_kept_is_used_at_once(tmp_path, job):
    path = keep_adhesive(tmp_path, PASTE)
    opening.set_bench(job, job.state.bench.model_copy(update={"adhesive": str(path)}))
    assert job.product(str(path)).name == PASTE.name
    assert {s.adhesive for s in job.state.with_stage("drawn")} == {str(path)}


def test_where_it_cannot_be_written_it_is_one_line_and_nothing_is_left(tmp_path):
    (tmp_path / "adhesives").write_text("a file in the way")
    with pytest.raises(AdhesiveNotKept) as caught:
        keep_adhesive(tmp_path / "adhesives", PASTE)
    assert "what was entered stays" in caught.value.todo
    assert [path.name for path in tmp_path.iterdir()] == ["adhesives"]


@pytest.mark.parametrize(
    ("name", "stem"),
    [("Weiße Paste 2:1", "weie-paste-2-1"), ("???", "adhesive"), ("../../etc", "etc"), ("x" * 90, "x" * 40)],
)
def test_any_name_makes_a_file_name(name, stem):
    assert file_stem(name) == stem


def test_what_was_entered_is_there_another_day(store):
    label = Label().told("name", "Paste").by("by_volume")
    keep_label(store, label)
    assert label_of(store) == label
