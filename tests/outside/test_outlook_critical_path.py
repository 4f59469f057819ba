"""The outlook's time in hand against networkx's longest path, on random recipes without a plan.

Independent of our own walk: networkx.dag_longest_path_length on a graph whose edges weigh a step and its wait.
"""

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.board_scenes import EAT_S, Told, at, step
from timerboard.core.menu import Dish, Link, Menu
from timerboard.core.outlook import outlook
from timerboard.core.values import MS, Span

NOW = at("12:00")


@st.composite
def recipes(draw):
    """Steps of 1-60 min, each after some of those before it, with waits up to 10 min."""
    count = draw(st.integers(1, 9))
    steps = []
    for n in range(count):
        before = draw(st.lists(st.integers(0, n - 1), unique=True, max_size=3)) if n else []
        links = tuple(Link(step=f"D/{b}", wait_s=draw(st.integers(0, 600))) for b in before)
        steps.append(step("D", str(n), Span.of(draw(st.integers(60, 3600))), links=links))
    return steps


def longest_s(steps, *, through=None):
    """Seconds of the longest path, of all or of those through one step."""
    graph = nx.DiGraph()
    for one in steps:
        graph.add_edge((one.id, "in"), (one.id, "out"), weight=one.span.likely)
        for link in one.links:
            graph.add_edge((link.step, "out"), (one.id, "in"), weight=link.wait_s)
    if through is None:
        return nx.dag_longest_path_length(graph)
    before = graph.subgraph(nx.ancestors(graph, (through, "out")) | {(through, "out")})
    after = graph.subgraph(nx.descendants(graph, (through, "out")) | {(through, "out")})
    return nx.dag_longest_path_length(before) + nx.dag_longest_path_length(after)


@settings(max_examples=60, deadline=None)
@given(steps=recipes())
def test_the_time_in_hand_is_what_the_longest_path_leaves(steps):
    menu = Menu(title="T", serves=1, dishes=(Dish(name="D", steps=tuple(steps)),))
    ahead = outlook(Told(menu, plan=None).cook, NOW)
    left = EAT_S * MS - NOW
    assert ahead.margin_ms == left - longest_s(steps) * MS
    for one in steps:
        assert ahead.steps[one.id].slip_ms == left - longest_s(steps, through=one.id) * MS
