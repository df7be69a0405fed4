"""Keys of one line are level, empty words take no room, and lines end where a reader would end them."""

from bench.screens.offscreen import Stage


def heights(*parts) -> set[float]:
    return {round(part.height, 1) for part in parts}


def row_of(*names: str, **kwargs):
    from bench.screens.widgets import Row, SideAct

    row = Row(**kwargs)
    for name in names:
        row.add_widget(SideAct(text=name))
    return row


def test_keys_of_a_line_are_as_high_as_the_highest_and_no_higher_once_it_needs_less(stage: Stage) -> None:
    row = row_of("Weigh the cup and the stick", "Undo", size_hint_x=None, width=300)
    stage.show(row)
    stage.frame(3)
    long, short = reversed(row.children)
    assert long.height == short.height == row.height > long.minimum_height - 1 > 97
    long.text = "Cup"
    stage.frame(4)
    assert heights(long, short, row) == {96}


def test_a_line_within_a_line_is_level_with_what_stands_beside_it(stage: Stage) -> None:
    from bench.screens.widgets import Act, Rows

    inner = row_of("Not", "Put the cup away for now")
    outer = Rows(orientation="horizontal", size_hint=(None, None), width=640)
    outer.bind(minimum_height=outer.setter("height"))
    act = Act(text="Go on")
    outer.add_widget(act)
    outer.add_widget(inner)
    stage.show(outer)
    stage.frame(4)
    assert len(heights(act, inner, *inner.children)) == 1
    assert act.height > 97
    inner.children[0].text = "No"
    stage.frame(5)
    assert heights(act, inner, *inner.children) == {96}


def test_each_line_of_a_grid_is_level_for_itself(stage: Stage) -> None:
    from bench.screens.widgets import Grid, SideAct

    grid = Grid(cols=2, size_hint_x=None, width=300)
    keys = [SideAct(text=text) for text in ("Weigh the cup and the stick", "Undo", "Back", "On")]
    for key in keys:
        grid.add_widget(key)
    stage.show(grid)
    stage.frame(4)
    assert keys[0].height == keys[1].height > 97
    assert heights(*keys[2:]) == {96}


def test_a_last_line_of_a_grid_that_is_short_fills_its_width(stage: Stage) -> None:
    from bench.screens.widgets import Grid, SideAct

    grid = Grid(cols=3, size_hint_x=None, width=632)
    keys = [SideAct(text=text) for text in ("Back", "On", "Undo", "Find", "Left")]
    for key in keys:
        grid.add_widget(key)
    stage.show(grid)
    stage.frame(4)
    assert {round(key.width) for key in keys[:3]} == {200}
    assert {round(key.width) for key in keys[3:]} == {308}
    assert [round(key.x - grid.x) for key in keys] == [0, 216, 432, 0, 324]
    grid.remove_widget(keys.pop())
    stage.frame(3)
    assert round(keys[3].width) == round(grid.width)


def test_a_page_stays_with_how_many_there_are(stage: Stage) -> None:
    from bench.screens.parts.fitting import held_together, word_px

    wide = 40 * word_px("More (1 of", True) + 4
    assert held_together("More (1 of 7)", 40, wide, bold=True) == "More (1\u00a0of\u00a07)"


def test_one_below_the_other_each_is_as_high_as_it_needs(stage: Stage) -> None:
    row = row_of("Weigh the cup and the stick", "Undo", size_hint_x=None, width=300)
    stage.show(row)
    stage.frame(3)
    row.orientation = "vertical"
    stage.frame(4)
    long, short = reversed(row.children)
    assert long.height > 97
    assert short.height == 96
    row.orientation, row.width = "horizontal", 280
    stage.frame(4)
    taken = row.children[0]
    row.remove_widget(taken)
    assert taken.height == 96


def test_words_that_say_nothing_cost_neither_height_nor_a_gap(stage: Stage) -> None:
    from bench.screens.widgets import Card, Words

    def card(*texts: str):
        made = Card()
        for text in texts:
            made.add_widget(Words(text=text))
        return made

    said_and_not = (("one", "two"), ("one", "", "two", ""), ("", "one", "two"))
    shown = [stage.show(card(*texts)) for texts in said_and_not]
    for made in shown:
        stage.show(made)
        stage.frame(3)
    assert len(heights(*shown)) == 1
    for made in shown:
        said = [words for words in reversed(made.children) if words.text]
        assert said[0].top == made.top - made.padding[1]


def test_no_paragraph_ends_with_a_word_alone(stage: Stage) -> None:
    from bench.screens.parts.fitting import held_together, word_px

    text = "Next is section 1: it belongs to what stands"
    wide = 40 * word_px("Next is section 1: it belongs to what", False) + 4
    assert held_together(text, 40, wide, bold=False) == text.replace("what stands", "what\u00a0stands")
    assert held_together(f"{text} out", 40, wide, bold=False) == f"{text} out"  # two words stand there
    assert held_together(text, 40, 4000, bold=False) == text
    assert held_together("firm 13:18\nhard on Monday", 40, 4000, bold=False) == "firm 13:18\nhard on Monday"
    long = 40 * word_px("hard", False) + 40 * word_px("  Saturday", False)
    left = "hard Saturday 13:28"  # alone "hard" would be less than a line
    assert held_together(left, 40, long, bold=False) == left


def test_a_number_keeps_its_unit_unless_that_would_take_a_line_more(stage: Stage) -> None:
    from bench.screens.parts.fitting import held_together, word_px

    text = "At 3 h of glueing up and 3 h of laying"
    wide = 40 * word_px("At 3 h of glueing up and 3", False) + 4
    assert "and 3\u00a0h of laying" in held_together(text, 40, wide, bold=False)
    assert held_together("25 minutes and 3 men", 40, 200, bold=False).count("\u00a0") == 0
    narrow = 40 * word_px("at 12", False) + 4
    assert "\u00a0" not in held_together("at 12 min", 40, narrow, bold=False)


def test_words_held_together_read_as_they_were_given(stage: Stage) -> None:
    from bench.screens.widgets import Words

    words = Words(text="Next is section 1: it belongs to what stands", size_hint_x=None, width=560)
    stage.show(words)
    stage.frame(2)
    assert words.text == "Next is section 1: it belongs to what stands"
    assert words.height > 60


def test_a_list_that_fits_one_page_has_no_keys_that_turn_it(stage: Stage) -> None:
    from bench.screens.parts.listing import Listing, Offer

    listing = Listing()
    stage.show(listing)
    stage.frame(2)
    rows = [Offer(f"row {k}", "", f"row_{k}", lambda: None) for k in range(12)]
    listing.offer(rows[:3])
    stage.frame(3)
    assert not {"page_on", "page_back"} & set(stage.names())
    listing.offer(rows)
    stage.frame(3)
    assert {"page_on", "page_back"} <= set(stage.names())
    seen = {name for name in stage.names() if name.startswith("row_")}
    while not stage.find("page_on").disabled:
        stage.tap("page_on")
        stage.frame(2)
        seen |= {name for name in stage.names() if name.startswith("row_")}
    assert len(seen) == 12
