"""Switching off the array under load (IEC 60364-7-712:2017 clause 712.462, IEC 60947-3:2020)."""

from collections.abc import Iterator

from ferrule.constraint import Constraint, at_least, is_so
from ferrule.physics import scale
from ferrule.working import Tables, Trace


class LoadBreakSwitch:
    """A switch on the array's side of every inverter, fit for direct current under load."""

    needs = (
        "dc_isolator_category_least",
        "dc_isolator_category_single_string",
        "dc_isolator_category_parallel",
        "dc_isolator_current_factor",
        "dc_isolator_poles",
        "dc_isolator_categories",
        "dc_isolator_ratings",
        "dc_isolator_voltages",
    )

    def switch(
        self,
        tables: Tables,
        *,
        count: int,
        together_a: float,
        rating_a: float,
        category: str,
        all_poles: bool,
    ) -> Iterator[Constraint]:
        """Current, utilisation category and poles; its voltage is a matter of the string's own highest."""
        t = Trace(tables)
        yield at_least(
            "isolator_current",
            "The isolator is rated {value}; {limit} can flow through it",
            t,
            value=rating_a,
            limit=t.calculate(
                scale.scaled_current, current_a=together_a, factor=t.figure("dc_isolator_current_factor")
            ),
            unit="A",
        )
        t = Trace(tables)
        least = t.term("dc_isolator_category_least")
        yield is_so(
            "isolator_category",
            "The isolator is of category {category}; it must be {wanted} or better",
            t,
            self._rank(tables, category) >= self._rank(tables, least),
            category=category,
            wanted=least,
        )
        t = Trace(tables)
        made_for = self._made_for(t, count)
        yield is_so(
            "isolator_category_made_for",
            "The isolator is of category {category}; {wanted} is the one made for this array",
            t,
            self._rank(tables, category) >= self._rank(tables, made_for),
            binding=False,
            category=category,
            wanted=made_for,
        )
        t = Trace(tables)
        t.term("dc_isolator_poles")
        yield is_so(
            "isolator_poles",
            "The isolator opens all poles together: {fitted}",
            t,
            all_poles,
            fitted=all_poles,
        )

    def category(self, tables: Tables, *, count: int) -> str:
        """The category made for so many strings in parallel."""
        return self._made_for(Trace(tables), count)

    def ratings_a(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("dc_isolator_ratings").numbers()

    def voltages_v(self, tables: Tables) -> tuple[float, ...]:
        return tables.series("dc_isolator_voltages").numbers()

    @staticmethod
    def _made_for(t: Trace, count: int) -> str:
        return t.term("dc_isolator_category_parallel" if count > 1 else "dc_isolator_category_single_string")

    @staticmethod
    def _rank(tables: Tables, category: str) -> int:
        return tables.series("dc_isolator_categories").words().index(category)
