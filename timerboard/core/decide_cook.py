"""What concerns the whole meal: its dishes, its moment, its plan, its end."""

from .answers import At, Refusal
from .commands import AddDish, AdoptPlan, CloseCook, DropDish, MoveEating
from .cook import Cook
from .events import CookClosed, DishAdded, DishDropped, EatTimeMoved, Event, PlanAdopted
from .fold_effects import LONGEST_AHEAD_S
from .values import MS

Answer = tuple[Event, ...] | Refusal


def adopt_plan(cook: Cook, command: AdoptPlan, stamp: At) -> Answer:
    """Take a plan, and the later meal that it spoke of."""
    taken = PlanAdopted(**stamp.fields(), plan=command.plan)
    if command.eat_at is None or command.eat_at == cook.eat_at:
        return (taken,)
    return (taken, EatTimeMoved(**stamp.fields(1), eat_at=command.eat_at))


def drop_dish(cook: Cook, command: DropDish, stamp: At) -> Answer:
    """Strike a dish off."""
    if cook.menu.dish(command.dish) is None:
        return Refusal(f"There is no dish called {command.dish}.")
    if command.dish in cook.dropped:
        return Refusal(f"{command.dish} was dropped already.")
    return (DishDropped(**stamp.fields(), dish=command.dish),)


def add_dish(cook: Cook, command: AddDish, stamp: At) -> Answer:
    """One dish more; its name and its steps must be new."""
    if cook.menu.dish(command.dish.name) is not None:
        return Refusal(f"There is a dish called {command.dish.name} already.")
    clash = next((step.id for step in command.dish.steps if step.id in cook.lives), None)
    if clash is not None:
        return Refusal(f"There is a step called {clash} already.")
    return (DishAdded(**stamp.fields(), dish=command.dish),)


def move_eating(cook: Cook, command: MoveEating, stamp: At) -> Answer:
    """Eat at another moment, which is to come."""
    if command.eat_at <= stamp.at:
        return Refusal("That moment is past already.")
    if command.eat_at > stamp.at + LONGEST_AHEAD_S * MS:
        return Refusal("That is more than a year away.")
    return () if command.eat_at == cook.eat_at else (EatTimeMoved(**stamp.fields(), eat_at=command.eat_at),)


def close(cook: Cook, command: CloseCook, stamp: At) -> Answer:
    """The meal is over."""
    return (CookClosed(**stamp.fields()),)
