"""Topic about schedules: the same status and the same end as CP-SAT, and nothing broken."""

from ortools.sat.python import cp_model

from bakes import bake
from topic import Topic

STATUS = {cp_model.OPTIMAL: "optimal", cp_model.INFEASIBLE: "infeasible"}


def model_of(bake):
    """The bake as CP-SAT is told it."""
    model = cp_model.CpModel()
    horizon = sum(task["minutes"] for task in bake["tasks"])
    horizon += sum(max(0, link["min"]) for link in bake["links"])
    minutes = {task["id"]: task["minutes"] for task in bake["tasks"]}
    start = {id: model.new_int_var(0, horizon, id) for id in minutes}
    held = {
        id: model.new_fixed_size_interval_var(start[id], minutes[id], id) for id in minutes
    }
    for resource, capacity in bake["resources"].items():
        holders = [held[task["id"]] for task in bake["tasks"] if resource in task["needs"]]
        if capacity == 1:
            model.add_no_overlap(holders)
        else:
            model.add_cumulative(holders, [1] * len(holders), capacity)
    for link in bake["links"]:
        lag = start[link["to"]] - start[link["from"]] - minutes[link["from"]]
        model.add(lag >= link["min"])
        if link["max"] is not None:
            model.add(lag <= link["max"])
    end = model.new_int_var(0, horizon, "end")
    for id in minutes:
        model.add(end >= start[id] + minutes[id])
    model.minimize(end)
    return model


def solved(bake, workers):
    """CP-SAT's status and end; `workers` 0 are as many as it likes."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    status = STATUS.get(solver.solve(model_of(bake)), "unknown")
    return status, round(solver.objective_value) if status == "optimal" else None


def broken(bake, starts):
    """What a schedule breaks, read off the file alone."""
    minutes = {task["id"]: task["minutes"] for task in bake["tasks"]}
    if starts.keys() != minutes.keys():
        return ["not every task has a start"]
    found = [f"{id} starts at {start}" for id, start in starts.items() if start < 0]
    for link in bake["links"]:
        lag = starts[link["to"]] - starts[link["from"]] - minutes[link["from"]]
        if lag < link["min"] or link["max"] is not None and lag > link["max"]:
            found.append(f"{link} has a lag of {lag}")
    for resource, capacity in bake["resources"].items():
        use = {}
        for task in bake["tasks"]:
            if resource in task["needs"]:
                for minute in range(starts[task["id"]], starts[task["id"]] + task["minutes"]):
                    use[minute] = use.get(minute, 0) + 1
        found += [f"{resource} at {minute}" for minute, held in use.items() if held > capacity]
    return found


def differs(bake, answer, theirs):
    """How an answer differs from CP-SAT's, or breaks what it should keep; nothing where it's right."""
    status, end = theirs
    if answer["status"] != status or answer["makespan"] != end:
        return [f"{answer['status']} {answer['makespan']} instead of {status} {end}"]
    if status == "infeasible":
        return [] if answer["why"] else ["no reason is given"]
    ends = [answer["starts"][task["id"]] + task["minutes"] for task in bake["tasks"]]
    return broken(bake, answer["starts"]) + (["another end"] if max(ends) != end else [])


class Plans(Topic):
    name = "plans of one to three formulas (CP-SAT, proven)"
    topic = "plan"
    # There is one right end: an answer is right or wrong.
    tolerance = 0.0

    def case(self, random):
        return bake(random)

    def check(self, inputs, answer):
        return float(len(differs(inputs, answer, solved(inputs, workers=1))))


TOPICS = [Plans()]
