"""Finding out once what does not change: choosing asks the same of many designs that differ little."""

from collections.abc import Callable, Hashable
from typing import Any, Generic, TypeVar, cast

K = TypeVar("K", bound=Hashable)
T = TypeVar("T")


class Memory(Generic[K]):
    """What was last found out under each key, with the state of every decision that was looked at for it."""

    def __init__(self) -> None:
        self._held: dict[Hashable, tuple[dict[K, Any], Any]] = {}
        self._looked_at: dict[K, Any] = {}

    def look(self, decision: K, state: Any) -> None:
        """Note that what is being found out looks at a decision, and finds it in this state."""
        self._looked_at[decision] = state

    def recall(self, key: Hashable, state: Callable[[K], Any], work: Callable[[], T]) -> T:
        """What `work` finds out, or found out before if every decision it looked at is in the same state.

        It may rest on nothing else that changes; one may go on within another. What is raised is not held.
        """
        states, found = self._held.get(key, (None, None))
        if states is not None and [*map(state, states)] == [*states.values()]:
            self._looked_at.update(states)
            return cast(T, found)
        around, self._looked_at = self._looked_at, {}
        try:
            found = work()
            self._held[key] = self._looked_at, found
            return found
        finally:
            around.update(self._looked_at)
            self._looked_at = around
