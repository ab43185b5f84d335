"""What reads the same, and what was meant."""

from __future__ import annotations

from seqviz.records.words import as_name, as_word, likely_names, listed, meant, name_mistake


def test_words_and_names() -> None:
    assert as_word(" Bend_Radius ") == as_word("bend-radius") == as_word("bend  radius") == "bend radius"
    assert as_name("  Rail   left ") == "Rail left"
    # An accent written as a sign of its own is the same letter.
    assert as_name("Kante u\u0308") == "Kante \u00fc"


def test_what_names_hold() -> None:
    assert name_mistake("Längs-Rippe 3") is None
    assert name_mistake("木 2") is None
    assert [name_mistake(name) for name in ("a.b", "a_b", "a:b", 'a"', "a#", "a,b", "[a")] == list('._:"#,[')
    assert name_mistake("blind rivet 3.2", allowed=".") is None


def test_what_was_meant() -> None:
    assert meant("Thicknes", ["thickness", "through"]) == "thickness"
    assert meant("xyz", ["thickness"]) is None
    assert likely_names("ra.il") == {"ra.il", "rail", "ra il"}


def test_lists_in_words() -> None:
    assert [listed([]), listed(["a"]), listed(["a", "b", "c"])] == ["", "a", "a, b or c"]
    assert listed("abcd", most=2) == "a, b and 2 more"
