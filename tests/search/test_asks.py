"""What a question is about, by what was given with it."""

from calc.model import Ask


def test_what_is_given_widens_a_question_and_never_narrows_it():
    own = Ask("wire", "What wire?", checks=("carries",), given={"fuse": ("holds",)})
    assert own.about({"run"}).checks == ("carries",)
    assert own.about({"run", "fuse"}).checks == ("carries", "holds")
    # Without any named it is about all of them.
    assert Ask("wire", "What wire?", given={"fuse": ("holds",)}).about({"fuse"}).checks == ()
