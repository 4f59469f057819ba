"""Critical path and slack against a textbook network and against networkx.

The network is the construction project of Hillier and Lieberman, Introduction to Operations Research (chapter on PERT
and CPM): fourteen activities in weeks, 44 weeks in all, critical path A-B-C-E-F-J-L-N. From memory; its slacks are
worked out again below.
"""

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.tiny_kitchens import EAT, plan, problem, task
from timerboard.core.plan import After
from timerboard.planner.greedy import first_plan
from timerboard.planner.slack import with_slack

WEEK = 100

HOUSE = {
    "A": (2, ""),
    "B": (4, "A"),
    "C": (10, "B"),
    "D": (6, "C"),
    "E": (4, "C"),
    "F": (5, "E"),
    "G": (7, "D"),
    "H": (9, "EG"),
    "I": (7, "C"),
    "J": (8, "FI"),
    "K": (4, "J"),
    "L": (5, "J"),
    "M": (2, "H"),
    "N": (6, "KL"),
}
"""Activity: weeks, and what it follows."""

# Early starts: C ends at 16. E 16-20, F 20-25, J 25-33, L 33-38, N 38-44: 44 weeks. I 16-23 waits 2 for J; K 33-37
# waits 1 for N; D 16-22, G 22-29, H 29-38, M 38-40 have 4.
SLACK = dict.fromkeys("ABCEFJLN", 0) | {"I": 2, "K": 1} | dict.fromkeys("DGHM", 4)
WEEKS = 44


def project(**more):
    tasks = [task(n, w * WEEK, after=tuple(After(task=b) for b in befores)) for n, (w, befores) in HOUSE.items()]
    return problem(*tasks, **more)


def early_starts(asked):
    ends = {}
    for one in asked.tasks:  # each comes after what it follows
        begins = max((ends[a.task] for a in one.after), default=EAT - WEEKS * WEEK)
        ends[one.id] = begins + one.least_s
    return {t.id: (ends[t.id] - t.least_s, ends[t.id]) for t in asked.tasks}


def test_the_shortest_project_takes_as_long_as_the_textbook_says():
    made = first_plan(project(soonest=True, not_before=0))
    assert made.span_s == WEEKS * WEEK
    assert made.eat_at == WEEKS * WEEK


def test_begun_early_every_activity_has_the_slack_of_the_textbook():
    asked = project()
    found = with_slack(asked, plan(asked, **early_starts(asked)))
    assert {p.id: p.slack_s // WEEK for p in found.placed} == SLACK


def test_the_latest_plan_starts_everything_at_its_late_start():
    asked = project()
    early = early_starts(asked)
    late = {p.id: p.start for p in first_plan(asked).placed}
    assert late == {name: early[name][0] + SLACK[name] * WEEK for name in HOUSE}


@st.composite
def networks(draw):
    count = draw(st.integers(1, 12))
    lengths = draw(st.lists(st.integers(1, 50), min_size=count, max_size=count))
    arcs = [(a, b) for b in range(count) for a in range(b) if draw(st.integers(0, 3)) == 0]
    return lengths, arcs


@settings(max_examples=40, deadline=None)
@given(networks())
def test_any_network_takes_as_long_as_the_longest_path_that_networkx_finds(network):
    lengths, arcs = network
    graph = nx.DiGraph()
    graph.add_weighted_edges_from([(str(a), str(b), lengths[a]) for a, b in arcs])
    graph.add_weighted_edges_from([(str(n), "meal", length) for n, length in enumerate(lengths)])
    longest = nx.dag_longest_path(graph)
    tasks = [
        task(str(n), length, after=tuple(After(task=str(a)) for a, b in arcs if b == n))
        for n, length in enumerate(lengths)
    ]
    made = first_plan(problem(*tasks))
    assert made.span_s == nx.dag_longest_path_length(graph)
    slack = {p.id: p.slack_s for p in with_slack(problem(*tasks), made).placed}
    assert all(slack[name] == 0 for name in longest if name != "meal")


@pytest.mark.parametrize("name", HOUSE)
def test_an_activity_that_takes_as_much_longer_as_its_slack_delays_nothing_and_one_more_does(name):
    for more, span in ((SLACK[name] * WEEK, WEEKS * WEEK), (SLACK[name] * WEEK + 1, WEEKS * WEEK + 1)):
        tasks = [
            t.model_copy(update={"least_s": t.least_s + more, "most_s": t.most_s + more}) if t.id == name else t
            for t in project().tasks
        ]
        assert first_plan(problem(*tasks)).span_s == span
