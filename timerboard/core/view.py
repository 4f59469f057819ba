"""The whole board as a value: every word and number on it, from the cook and the moment."""

from .alarm_values import Alarm, Rank
from .cook import Cook
from .hot_oil import IF_IT_GOES_WRONG
from .quantities import countdown_words
from .scene import Scene, scene_of
from .values import Moment
from .view_axis import axis
from .view_choices import kitchen_choices
from .view_foot import foot, notices
from .view_hands import hands
from .view_head import head
from .view_order import reorder
from .view_strips import strips
from .view_values import BoardView, Extras

__all__ = ["Extras", "reorder", "view"]


def view(cook: Cook, now: Moment, extras: Extras | None = None, called: tuple[Alarm, ...] | None = None) -> BoardView:
    """Everything the board shows at `now`. Pure and total: any cook that `fold` makes has a view.

    `extras.order` is the order of strips as last shown; the view's own strips are the next one. `called`: what
    `alarms.calls` says of this cook and moment, where that was asked already.
    """
    scene = scene_of(cook, now, extras or Extras(), called)
    items, waiting = hands(scene)
    return BoardView(
        head=head(scene),
        hands=items,
        waiting=waiting,
        strips=strips(scene),
        axis=axis(scene),
        foot=foot(scene),
        notices=notices(scene),
        danger=scene.extras.sound_calls or any(alarm.rank is Rank.DANGER for alarm in scene.alarms),
        hushed=_hushed(scene),
        names=_names(scene),
        choices=kitchen_choices(scene),
        fire=IF_IT_GOES_WRONG,
    )


def _hushed(scene: Scene) -> str:
    """'sound paused 1:40 left' while it is."""
    until = scene.cook.hushed_until
    return "" if until is None or until <= scene.now else f"sound paused {countdown_words(until - scene.now)} left"


def _names(scene: Scene) -> tuple[str, ...]:
    """Who has answered so far, in this cook and before it, without doubles."""
    told = [noted.event.who for noted in scene.cook.record if noted.event.who]
    return tuple(dict.fromkeys((*scene.extras.names, *told)))
