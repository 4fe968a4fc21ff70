"""The library's own door, as its docstring shows it."""

import ferrule
import houses


def test_a_job_is_answered_as_often_as_one_likes() -> None:
    job = ferrule.load(houses.EXAMPLES / "meter-led" / "job.yaml")
    first, second = ferrule.answer(job), ferrule.answer(job)
    assert first.cleared
    assert first.findings == second.findings


def test_every_name_of_the_library_is_there() -> None:
    assert {type(getattr(ferrule, name)).__name__ for name in ferrule.__all__} == {"type", "function"}
