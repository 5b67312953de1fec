"""A mass and sizes go to a part."""

from __future__ import annotations

import pytest

from projects.models import Part
from suppliers.models import Making
from tests import factories
from tests.worksheets.handing import Place, told
from worksheets.engine.result import ToPart

pytestmark = pytest.mark.django_db
MASS = ToPart(key="mass", label="Wet mass", mass=413.67624)
SIZE = ToPart(key="size", label="Outside", width=1.2188, height=0.45726)


@pytest.fixture(autouse=True)
def hands(place: Place) -> None:
    place.hands.extend([MASS, SIZE])


def test_a_mass_is_kept_in_whole_grams_and_sizes_in_whole_millimetres(place: Place) -> None:
    place.send("mass")
    place.send("size")
    part = place.worksheet.part
    assert part
    part.refresh_from_db()
    assert (part.mass_g, part.width_mm, part.height_mm, part.depth_mm) == (413_676, 1219, 457, None)


def test_it_says_before_and_after_in_both_systems(place: Place) -> None:
    Part.objects.update(mass_g=52_000)
    page = told(place.look("mass", mass_g="912 lb"))
    assert "It goes to the part “Fern troughs”" in page
    assert "115 lb (52 kg) → becomes 912 lb (414 kg)" in page


def test_a_mass_that_nobody_knew_says_so(place: Place) -> None:
    assert "not known → becomes 912 lb (414 kg)" in told(place.page("mass"))


def test_its_maker_and_its_stages_stay_as_they_are(place: Place) -> None:
    part = place.worksheet.part
    assert part
    maker = factories.SupplierFactory(project=place.project)
    Making.objects.create(part=part, supplier=maker)
    part.stages.create(name="make", position=3)
    place.send("mass")
    assert Making.objects.get(part=part).supplier == maker
    assert list(part.stages.values_list("name", flat=True)) == ["make"]


def test_another_part_may_be_chosen(place: Place) -> None:
    other = factories.PartFactory(project=place.project, name="Gourd planter", kind="planter")
    assert "It goes to the part “Gourd planter”" in told(place.look("mass", part=other.pk))
    place.send("mass", part=other.pk)
    other.refresh_from_db()
    assert other.mass_g == 413_676
    assert place.handed.part == other


def test_what_is_left_empty_stays_as_it_is(place: Place) -> None:
    Part.objects.update(height_mm=300)
    place.send("size", height_mm="")
    part = Part.objects.get()
    assert (part.width_mm, part.height_mm) == (1219, 300)


def test_nothing_at_all_is_refused(place: Place) -> None:
    answer = place.send("size", seen="x", width_mm="", height_mm="")
    assert answer.status_code == 422
    assert "Write at least one amount" in answer.content.decode()


@pytest.mark.parametrize(("typed", "says"), [
    ({"mass_g": "heavy"}, "Write a mass with its unit, such as 64 lb or 29 kg."),
    ({"mass_g": "12"}, "Write a mass with its unit"),
    ({"mass_g": "3 ft"}, "Write a mass with its unit"),
    ({"part": ""}, "Choose the part that this is the mass or the size of."),
])  # fmt: skip
def test_a_wrong_mass_is_said_beside_its_field(
    place: Place, typed: dict[str, str], says: str
) -> None:
    answer = place.send("mass", seen="x", **typed)
    assert answer.status_code == 422
    assert says in answer.content.decode()


def test_the_log_tells_the_part_and_the_worksheet(place: Place) -> None:
    place.send("mass")
    assert place.log[0] == (
        "Handed on “Wet mass” of “Soil of the troughs”: mass 912 lb (414 kg) to the part "
        "“Fern troughs”."
    )
    assert "Changed the part “Fern troughs”." in place.log


def test_what_rests_on_the_part_is_run_anew(place: Place) -> None:
    Part.objects.update(width_mm=1000)
    place.worksheet.typed = {**place.worksheet.typed, "length": ""}
    place.worksheet.save()
    place.send("size")
    run = place.fresh().runs.first()
    assert run
    assert run.taken["length"] == [1.219, "the width of “Fern troughs”"]
    assert run.why == "Changed the part “Fern troughs”."


def test_of_two_who_change_a_part_the_second_looks_again(place: Place) -> None:
    seen = place.page("mass").split('name="seen" value="')[1].split('"')[0]
    Part.objects.update(mass_g=99_000)
    answer = place.send("mass", seen=seen)
    assert answer.status_code == 409
    assert "Something was changed while you had this open." in answer.content.decode()
    assert Part.objects.get().mass_g == 99_000
