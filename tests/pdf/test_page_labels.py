from creasewright.pdf.page_labels import LabelRange, label_ranges


def test_printed_numbers_become_the_fewest_ranges() -> None:
    assert label_ranges(("", "1", "2", "3", "T-1", "T-2")) == (
        LabelRange(0, "", None),
        LabelRange(1, "", 1),
        LabelRange(4, "T-", 1),
    )


def test_a_number_left_out_begins_a_new_range() -> None:
    assert label_ranges(("1", "3")) == (LabelRange(0, "", 1), LabelRange(1, "", 3))


def test_words_are_a_prefix_alone() -> None:
    assert label_ranges(("cover", "cover", "07")) == (LabelRange(0, "cover", None), LabelRange(2, "0", 7))
