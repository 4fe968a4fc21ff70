"""A mistake that a validator finds inside what it looks at."""

from pydantic import ValidationError
from pydantic_core import InitErrorDetails, PydanticCustomError


def refused(record: str, allowed: str, found: str | None, *place: int | str) -> ValidationError:
    """What is allowed in a record, and what was found at a place within the field that is validated."""
    error = PydanticCustomError("value_error", "{error}", {"error": allowed})
    return ValidationError.from_exception_data(record, [InitErrorDetails(type=error, loc=place, input=found)])
