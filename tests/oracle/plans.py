"""Topic about schedules: the same status and the same end as CP-SAT, and nothing broken."""

from ortools.sat.python import cp_model

from bakes import alike, bake, shared, with_chores
from topic import Topic

STATUS = {cp_model.OPTIMAL: "optimal", cp_model.INFEASIBLE: "infeasible"}


def model_of(problem):
    """The bake as CP-SAT is told it, with the variables of its starts and its end."""
    model = cp_model.CpModel()
    horizon = sum(task["minutes"] for task in problem["tasks"])
    horizon += sum(max(0, link["min"], -(link["max"] or 0)) for link in problem["links"])
    horizon += max(task.get("earliest", 0) for task in problem["tasks"])
    minutes = {task["id"]: task["minutes"] for task in problem["tasks"]}
    start = {
        task["id"]: model.new_int_var(
            task.get("earliest", 0), task.get("latest", horizon), task["id"]
        )
        for task in problem["tasks"]
    }
    held = {
        id: model.new_fixed_size_interval_var(start[id], minutes[id], id) for id in minutes
    }
    for resource, capacity in problem["resources"].items():
        users = [task for task in problem["tasks"] if resource in task["needs"]]
        holders = [held[task["id"]] for task in users]
        holders += stayed(problem, model, resource, start, minutes, horizon)
        if any(state_of(task, resource) is not None for task in users):
            # Of every two that can't share it, one comes before the other.
            for nth, one in enumerate(users):
                for other in users[:nth]:
                    if not may_meet(one, other, resource):
                        model.add_no_overlap([held[one["id"]], held[other["id"]]])
        elif capacity == 1:
            model.add_no_overlap(holders)
        else:
            model.add_cumulative(holders, [1] * len(holders), capacity)
    keep_apart(problem, model, start, horizon)
    for link in problem["links"]:
        lag = start[link["to"]] - start[link["from"]] - minutes[link["from"]]
        model.add(lag >= link["min"])
        if link["max"] is not None:
            model.add(lag <= link["max"])
    end = model.new_int_var(0, horizon, "end")
    for task in problem["tasks"]:
        if task.get("counts", True):
            model.add(end >= start[task["id"]] + task["minutes"])
    model.minimize(end)
    return model, start, end


def state_of(task, resource):
    """What a task needs the resource of its block to be; of other resources, nothing."""
    return task.get("state") if task.get("block", [None])[0] == resource else None


def may_meet(one, other, resource):
    """Whether two tasks may hold the only one of a resource together, as both need it in one state."""
    state = state_of(one, resource)
    return state is not None and state == state_of(other, resource)


def moment(edge, start, minutes, ever):
    """When an end of a stay is, of numbers or of variables."""
    if edge == "ever":
        return ever
    ((kind, of),) = edge.items()
    return start[of] + (minutes[of] if kind == "end" else 0)


def ends_of(stay, start, minutes, ever):
    """When a stay begins and when it ends."""
    return moment(stay["from"], start, minutes, 0), moment(stay["to"], start, minutes, ever)


def stayed(problem, model, resource, start, minutes, horizon):
    """Intervals of what holds a resource from a moment of one task to a moment of another."""
    found = []
    for stay in problem.get("stays", []):
        if stay["resource"] == resource:
            first, last = ends_of(stay, start, minutes, 2 * horizon)
            long = model.new_int_var(0, 2 * horizon, "")
            found.append(model.new_interval_var(first, long, last, ""))
    return found


def blocks_of(problem):
    """The blocks of tasks that a resource is kept for, by resource."""
    blocks = {}
    for task in problem["tasks"]:
        if "block" in task and task["minutes"] > 0:
            resource, of = task["block"]
            blocks.setdefault(resource, {}).setdefault(of, []).append(task)
    return {resource: list(of.values()) for resource, of in blocks.items()}


def keep_apart(problem, model, start, horizon):
    """Tells CP-SAT of blocks: from the first start to the last end of each is an interval, too."""
    for resource, blocks in blocks_of(problem).items():
        whole = []
        for block in blocks:
            first, last = (model.new_int_var(0, horizon, "") for _ in range(2))
            for task in block:
                model.add(first <= start[task["id"]])
                model.add(last >= start[task["id"]] + task["minutes"])
            long = model.new_int_var(0, horizon, "")
            whole.append(model.new_interval_var(first, long, last, ""))
        for nth, one in enumerate(blocks):
            for other in range(nth):
                if not may_meet(one[0], blocks[other][0], resource):
                    model.add_no_overlap([whole[nth], whole[other]])


def solved(model, workers=1):
    """CP-SAT's status and objective; `workers` 0 are as many as it likes."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    status = STATUS.get(solver.solve(model), "unknown")
    return status, round(solver.objective_value) if status == "optimal" else None


def waiting(problem, weights, start):
    """The weighted lags, of numbers or of variables."""
    minutes = {task["id"]: task["minutes"] for task in problem["tasks"]}
    return sum(
        weight * (start[link["to"]] - start[link["from"]] - minutes[link["from"]])
        for link, weight in zip(problem["links"], weights)
    )


def broken(problem, starts):
    """What a schedule breaks, read off the file alone."""
    minutes = {task["id"]: task["minutes"] for task in problem["tasks"]}
    if starts.keys() != minutes.keys():
        return ["not every task has a start"]
    found = [f"{id} starts at {start}" for id, start in starts.items() if start < 0]
    for link in problem["links"]:
        lag = starts[link["to"]] - starts[link["from"]] - minutes[link["from"]]
        if lag < link["min"] or link["max"] is not None and lag > link["max"]:
            found.append(f"{link} has a lag of {lag}")
    for task in problem["tasks"]:
        at = starts[task["id"]]
        if not task.get("earliest", 0) <= at <= task.get("latest", at):
            found.append(f"{task['id']} starts at {at}")
    for resource, blocks in blocks_of(problem).items():
        ends = [
            (
                min(starts[task["id"]] for task in block),
                max(starts[task["id"]] + task["minutes"] for task in block),
                block[0],
            )
            for block in blocks
        ]
        found += [
            f"{resource} isn't kept"
            for nth, one in enumerate(ends)
            for other in ends[:nth]
            if one[1] > other[0] and other[1] > one[0] and not may_meet(one[2], other[2], resource)
        ]
    for resource, capacity in problem["resources"].items():
        use = {}
        spans = [
            (starts[task["id"]], starts[task["id"]] + task["minutes"], state_of(task, resource))
            for task in problem["tasks"]
            if resource in task["needs"]
        ]
        for stay in problem.get("stays", []):
            if stay["resource"] == resource:
                first, last = ends_of(stay, starts, minutes, 2 * max(starts.values()) + 1_000)
                found += [f"{stay} ends at {last}"] if last < first else []
                spans.append((first, last, None))
        for first, last, state in spans:
            for minute in range(first, last):
                use.setdefault(minute, []).append(state)
        for minute, states in use.items():
            # Those in one state count as one, where there is but one.
            held = len(states)
            if capacity == 1:
                held = states.count(None) + len(set(states) - {None})
            found += [f"{resource} at {minute}"] if held > capacity else []
    return found


def differs(problem, answer, theirs):
    """How an answer differs from CP-SAT's, or breaks what it should keep; nothing where it's right."""
    status, end = theirs
    if status == "unknown" or (answer["status"], answer["makespan"]) != (status, end):
        return [f"{answer['status']} {answer['makespan']} instead of {status} {end}"]
    if status == "infeasible":
        return [] if answer["why"] else ["no reason is given"]
    return ends(problem, answer) + ([] if answer["bound"] == end else ["another bound"])


def ends(problem, answer):
    """What a schedule breaks, and whether it ends when it says so."""
    found = broken(problem, answer["starts"])
    told = max(
        answer["starts"][task["id"]] + task["minutes"]
        for task in problem["tasks"]
        if task.get("counts", True)
    )
    return found + ([] if told == answer["makespan"] else ["another end"])


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


class CrowdedPlans(Plans):
    name = "plans with windows and kept ovens (CP-SAT, proven)"

    def case(self, random):
        return bake(random, pressure=random.choice([0.0, 0.1, 0.2]), crowded=True)


class SharedPlans(Plans):
    name = "plans with room held between tasks and ovens shared at one heat (CP-SAT, proven)"

    def case(self, random):
        pressure = random.choice([0.0, 0.1, 0.2])
        return shared(random, bake(random, random.choice([2, 2, 3]), pressure))


class LikePlans(Plans):
    name = "plans of loads that are alike, or with loose chores (CP-SAT, proven)"

    def case(self, random):
        if random.random() < 0.6:
            return alike(random)
        return with_chores(random, bake(random, random.choice([1, 2]), 0.1))

    def check(self, inputs, answer):
        model, start, _ = model_of(inputs)
        # Nobody tells ours, which has to find out, and CP-SAT would look at all of their orders for minutes.
        firsts = inputs.get("alike", [])
        for before, after in zip(firsts, firsts[1:]):
            model.add(start[before] <= start[after])
        return float(len(differs(inputs, answer, solved(model))))


class HastyPlans(Topic):
    """What is said without a proof must be true as well: the bound, and that there is no better one."""

    name = "bounds of plans that had no time (CP-SAT, proven)"
    topic = "hasty"
    tolerance = 0.0

    def case(self, random):
        crowded = random.random() < 0.5
        drawn = bake(random, random.choice([2, 3]), random.choice([0.1, 0.3]), crowded)
        return {"bake": drawn, "turns": random.choice([2, 10, 30, 100, 300])}

    def check(self, inputs, answer):
        problem = inputs["bake"]
        model, _, _ = model_of(problem)
        status, end = solved(model)
        if status == "unknown":
            return 1.0
        if answer["status"] != "best-found":
            # Why there is none may take longer than there was time for.
            answer["why"] = answer["why"] or ["no time"]
            return float(len(differs(problem, answer, (status, end))))
        if status == "infeasible":
            return float(answer["makespan"] is not None)
        faults = [] if answer["bound"] <= end else ["a bound that is none"]
        if answer["makespan"] is not None:
            faults += ends(problem, answer)
            faults += ["better than the best"] if answer["makespan"] < end else []
        return float(len(faults))


class CalmPlans(Topic):
    name = "plans that wait least (CP-SAT, proven)"
    topic = "calm"
    tolerance = 0.0

    def case(self, random):
        drawn = bake(random, random.choice([1, 1, 2]), 0.1, random.random() < 0.3)
        if random.random() < 0.3:
            drawn = shared(random, bake(random, random.choice([1, 2]), 0.1))
        return {"bake": drawn, "weights": [random.randint(0, 3) for _ in drawn["links"]]}

    def check(self, inputs, answer):
        problem, weights = inputs["bake"], inputs["weights"]
        model, start, end = model_of(problem)
        status, soonest = solved(model)
        if status == "unknown" or (answer["status"], answer["end"]) != (status, soonest):
            return 1.0
        if status == "infeasible":
            return 0.0
        model.add(end <= soonest)
        model.minimize(waiting(problem, weights, start))
        status, least = solved(model)
        if status != "optimal":
            return 1.0
        ours = waiting(problem, weights, answer["starts"])
        faults = broken(problem, answer["starts"])
        return float(len(faults) + (answer["waiting"] != ours) + (ours != least))


TOPICS = [Plans(), CrowdedPlans(), SharedPlans(), LikePlans(), HastyPlans(), CalmPlans()]
