"""Topic about schedules: the same status and the same end as CP-SAT, and nothing broken."""

from ortools.sat.python import cp_model

from bakes import bake
from topic import Topic

STATUS = {cp_model.OPTIMAL: "optimal", cp_model.INFEASIBLE: "infeasible"}


def model_of(bake):
    """The bake as CP-SAT is told it, with the variables of its starts and its end."""
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
    return model, start, end


def solved(model, workers=1):
    """CP-SAT's status and objective; `workers` 0 are as many as it likes."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    status = STATUS.get(solver.solve(model), "unknown")
    return status, round(solver.objective_value) if status == "optimal" else None


def waiting(bake, weights, start):
    """The weighted lags, of numbers or of variables."""
    minutes = {task["id"]: task["minutes"] for task in bake["tasks"]}
    return sum(
        weight * (start[link["to"]] - start[link["from"]] - minutes[link["from"]])
        for link, weight in zip(bake["links"], weights)
    )


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
        model, _, _ = model_of(inputs)
        return float(len(differs(inputs, answer, solved(model))))


class CalmPlans(Topic):
    name = "plans that wait least (CP-SAT, proven)"
    topic = "calm"
    tolerance = 0.0

    def case(self, random):
        drawn = bake(random, random.choice([1, 1, 2]), 0.1)
        return {"bake": drawn, "weights": [random.randint(0, 3) for _ in drawn["links"]]}

    def check(self, inputs, answer):
        bake, weights = inputs["bake"], inputs["weights"]
        model, start, end = model_of(bake)
        status, soonest = solved(model)
        if status == "infeasible" or answer["end"] != soonest:
            return float(answer["end"] is not None)
        model.add(end <= soonest)
        model.minimize(waiting(bake, weights, start))
        _, least = solved(model)
        ours = waiting(bake, weights, answer["starts"])
        faults = broken(bake, answer["starts"])
        return float(len(faults) + (answer["waiting"] != ours) + (ours != least))


TOPICS = [Plans(), CalmPlans()]
