"""Remedies in step: every question is answered as if it were the only one."""

from letterfit.geometry import Rect
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.place.quick import can_place
from letterfit.report.case import Case
from letterfit.report.menus import first_words, menu_of
from letterfit.report.setting import Setting
from letterfit.report.trials import Asking, go_in, set_words, tried
from letterfit.script.model import Dialogue
from tests.box_font import box_font

BOX = open_typeface(box_font())
SETTING = Setting(
    lettering=Lettering(typeface=BOX, size_pt=8.0), effects=Lettering(typeface=BOX, size_pt=14.0)
)
TEXT = "The tide board says two hours. I say four."


def case(*texts: str, width: float, height: float) -> Case:
    """A panel of these balloons, with a region to keep clear at its foot."""
    room = Rect(0, 0, width, height)
    menus = tuple(
        menu_of(Dialogue(kind="dialogue", text=text, line=n), room, id=f"1.1.{n}", setting=SETTING)
        for n, text in enumerate(texts, start=1)
    )
    clear = (Rect(0, height - 4, width, 4),)
    return Case(menus=menus, room=room, largest=(150, 220), setting=SETTING, keep_clear=clear)


def asks(one: Case) -> Asking[float | None]:
    """Whether it goes in, as 0 or 1."""
    return float((yield from go_in(one, [menu.outlines for menu in one.menus], one.room)))


def test_balloons_go_in_or_not_as_the_quick_question_has_it() -> None:
    """Panels of all sizes, one balloon or many, asked at once and one by one."""
    cases = [
        case(*[TEXT] * count, width=width, height=20 + 4 * count)
        for count in (0, 1, 2, 4, 13)
        for width in (26, 45, 70)
    ]
    alone = [
        can_place(one.room, [menu.outlines for menu in one.menus], keep_clear=one.keep_clear)
        for one in cases
    ]
    assert tried([asks(one) for one in cases]) == [float(answer) for answer in alone]
    assert set(alone) == {True, False}


def test_balloons_with_fewer_words_are_set_as_each_alone() -> None:
    """The shapes of a text do not depend on those that are set beside it."""
    one = case(TEXT, TEXT, width=60, height=40)
    menu = one.menus[0]

    def shapes(count: int) -> Asking[float | None]:
        words = first_words(menu.words, count)
        (shorter,) = yield from set_words(one, [menu], [words])
        alone = menu.with_words(words, SETTING)
        assert [shape.outline for shape in shorter.front] == alone.outlines
        return float(shorter.words.count)

    assert tried([shapes(count) for count in (2, 5, 9)]) == [2.0, 5.0, 9.0]


def test_remedies_end_each_in_its_own_time() -> None:
    """One that asks nothing, one that asks once, one that asks ten times."""
    roomy = case(TEXT, width=90, height=60)

    def often(times: int) -> Asking[float | None]:
        for _ in range(times):
            yield from go_in(roomy, [roomy.menus[0].outlines], roomy.room)
        return float(times) if times else None

    assert tried([often(0), often(10), often(1)]) == [None, 10.0, 1.0]
    assert tried([]) == []
