"""Invented bakes to schedule, drawn from a seed.

A bake is one to three formulas that share hands, hob, oven and fridge. Each is a chain from
gathering to cooling which splits into loads that are shaped, risen and baked one by one; fillings
are cooked beside it, ovens heated, dishes washed. What waits badly (a rise that is over, a hot oven)
has a greatest lag. `pressure` shortens these and adds loads: with a high one, tasks collide
everywhere and some bakes can't be done at all. With `crowded`, things of the day are added: what is
delivered, what has to begin by a time, a while without hands, and an oven that is kept for one
formula from its first load to its last.
"""


class Formula:
    """Tasks and links of one formula, named by its letter."""

    def __init__(self, random, letter, pressure):
        self.random, self.letter, self.pressure = random, letter, pressure
        self.tasks, self.links = [], []

    def task(self, name, low, high, *needs):
        name = f"{self.letter}.{name}"
        minutes = self.random.randint(low, high)
        self.tasks.append({"id": name, "minutes": minutes, "needs": list(needs)})
        return name

    def link(self, before, after, least=0, most=None):
        self.links.append({"from": before, "to": after, "min": least, "max": most})
        return after

    def soon(self, before, after, *choices):
        """`after` follows within one of some minutes, less under pressure."""
        most = self.random.choice(choices)
        if self.random.random() < self.pressure:
            most = self.random.randint(0, max(1, most // 2))
        return self.link(before, after, 0, most)

    def in_turn(self, before, after, load):
        """A load that can wait for the loads before it."""
        most = self.random.choice([5, 10, 15]) + self.random.choice([20, 25, 30]) * (load - 1)
        return self.link(before, after, 0, most)

    def dough(self):
        gather = self.task("gather", 4, 12, "hands")
        mix = self.link(gather, self.task("mix", 5, 12, "hands"))
        at = self.soon(mix, self.task("knead", 6, 15, "hands"), 2, 5)
        at = self.soon(at, self.task("bulk1", 30, 70), 0, 2)
        for fold in range(1, self.random.randint(1, 3)):
            at = self.soon(at, self.task(f"fold{fold}", 2, 4, "hands"), 5, 10)
            at = self.soon(at, self.task(f"bulk{fold + 1}", 20, 45), 0, 2)
        if self.random.random() < 0.25:
            at = self.soon(at, self.task("chill", 40, 120, "fridge"), 5, 10)
        return gather, at

    def divided(self, at):
        at = self.soon(at, self.task("divide", 4, 8, "hands"), 10, 15)
        if self.random.random() < 0.5:
            at = self.soon(at, self.task("preshape", 4, 9, "hands"), 2, 5)
            at = self.soon(at, self.task("bench", 10, 25), 0, 2)
        return at

    def filling(self, gather):
        cook = self.link(gather, self.task("cook_filling", 8, 20, "hob", "hands"))
        if self.random.random() < 0.6:
            chill = self.task("chill_filling", 60, 200, *self.random.choice([(), ("fridge",)]))
            self.soon(cook, chill, 10, 15)
            return self.soon(chill, self.task("break_up_filling", 2, 4, "hands"), 30, 60)
        simmer = self.soon(cook, self.task("simmer", 20, 45, "hob"), 0, 2)
        return self.soon(simmer, self.task("season", 2, 4, "hands"), 5, 20)

    def extras(self, gather):
        for chore in self.random.sample(["wash_up", "label_boxes", "line_tins", "weigh_glaze"], 2):
            if self.random.random() < 0.6:
                self.link(gather, self.task(chore, 4, 14, "hands"))

    def one_after_another(self, names):
        for before, after in zip(names, names[1:]):
            if self.random.random() < 0.6:
                self.soon(before, after, 10, 15, 20)

    def baked(self, loads, boiled, topped):
        """Loads that are shaped, rise, perhaps boil, and bake in an oven heated before."""
        gather, at = self.dough()
        at = self.divided(at)
        filling = self.filling(gather) if self.random.random() < 0.5 else None
        pot = self.task("bring_to_boil", 12, 25, "hob") if boiled else None
        bakes = []
        for load in range(1, loads + 1):
            shape = self.in_turn(at, self.task(f"shape_{load}", 4, 14, "hands"), load)
            done = self.soon(shape, self.task(f"proof_{load}", 20, 65), 2, 5)
            if boiled:
                boil = self.task(f"boil_{load}", 4, 9, "hob", "hands")
                done = self.soon(done, boil, 10, 15)
                if load == 1:
                    self.soon(pot, boil, 5, 10, 20)
            if topped:
                done = self.soon(done, self.task(f"top_{load}", 2, 8, "hands"), 5, 10)
                if filling:
                    self.link(filling, done)
            bake = self.soon(done, self.task(f"bake_{load}", 8, 35, "oven"), 4, 5, 10)
            bakes.append(bake)
            finish = self.random.random()
            if finish < 0.35:
                self.soon(bake, self.task(f"glaze_{load}", 2, 5, "hands"), 3, 5, 10)
            elif finish < 0.7:
                self.soon(bake, self.task(f"cool_{load}", 15, 40), 5)
        self.link(self.task("preheat", 20, 40, "oven"), bakes[0], 0, 30)
        self.one_after_another(bakes)
        self.extras(gather)

    def fried(self, loads):
        """Loads that are cut, rise and are fried in oil heated before."""
        gather, at = self.dough()
        at = self.soon(at, self.task("roll_out", 5, 9, "hands"), 10, 15)
        oil = self.task("heat_oil", 12, 20, "hob")
        fries = []
        for load in range(1, loads + 1):
            cut = self.in_turn(at, self.task(f"cut_{load}", 3, 7, "hands"), load)
            proof = self.soon(cut, self.task(f"proof_{load}", 25, 45), 0, 2)
            fry = self.soon(proof, self.task(f"fry_{load}", 5, 9, "hob", "hands"), 8, 10)
            fries.append(fry)
            drain = self.soon(fry, self.task(f"drain_{load}", 5, 9), 0)
            self.soon(drain, self.task(f"dip_{load}", 3, 6, "hands"), 5, 10)
        self.soon(oil, fries[0], 5, 10)
        self.one_after_another(fries)
        self.extras(gather)


def crowd(random, tasks, resources):
    """Adds windows, a time away from the hands, and blocks to a bake."""
    for task in tasks:
        if random.random() < 0.06:
            task["earliest"] = random.randint(0, 120)
        if random.random() < 0.04:
            task["latest"] = task.get("earliest", 0) + random.randint(60, 400)
    if random.random() < 0.5:
        start = random.randint(10, 150)
        away = {"id": "away", "minutes": random.randint(15, 90), "needs": ["hands"]}
        tasks.append({**away, "earliest": start, "latest": start, "counts": False})
    if random.random() < 0.6:
        kept = [name for name in ("oven", "hob", "fridge") if resources[name] == 1]
        resource = random.choice(kept or ["hands"])
        for task in tasks:
            # Whoever reads a formula's letter has none for the time away.
            if resource in task["needs"] and task["id"] != "away" and random.random() < 0.9:
                task["block"] = [resource, "abc".index(task["id"][0])]


def bake(random, formulas=None, pressure=None, crowded=False):
    """A bake as `plan` reads it."""
    formulas = formulas or random.choice([1, 1, 2, 2, 3])
    if pressure is None:
        pressure = random.choice([0.0, 0.1, 0.2, 0.4])
    tasks, links = [], []
    for letter in "abc"[:formulas]:
        formula = Formula(random, letter, pressure)
        most = 5 if pressure > 0.3 else 3
        loads = random.randint(1, most if formulas < 3 else most - 1)
        if random.random() < 0.25:
            formula.fried(loads)
        else:
            formula.baked(loads, random.random() < 0.25, random.random() < 0.5)
        tasks += formula.tasks
        links += formula.links
    random.shuffle(tasks)
    random.shuffle(links)
    resources = {
        "hands": 1,
        "oven": random.choice([1, 1, 2]),
        "hob": random.choice([1, 1, 2]),
        "fridge": random.choice([1, 2]),
    }
    if crowded:
        crowd(random, tasks, resources)
    return {"tasks": tasks, "links": links, "resources": resources}


def alike(random):
    """One dough in six to ten loads that are alike, for two ovens or one; of some, only the baking.

    `alike` tells their first tasks, for CP-SAT's sake: their order is no matter.
    """
    formula = Formula(random, "a", 0.0)
    gather, at = formula.dough()
    # One that has its own way makes more than seven take CP-SAT half a minute.
    has_glaze = random.random() < 0.5
    loads = random.randint(6, 7 if has_glaze else 10)
    is_bare = random.random() < 0.3
    shape, proof, bake = (random.randint(*span) for span in ((3, 9), (20, 45), (12, 30)))
    soon = random.choice([10, 20, None])
    firsts = []
    for load in range(1, loads + 1):
        done = at
        if not is_bare:
            # Of a length each that is the same for all.
            shaped = formula.task(f"shape_{load}", shape, shape, "hands")
            done = formula.link(at, shaped)
            done = formula.link(done, formula.task(f"proof_{load}", proof, proof), 0, 5)
        baked = formula.task(f"bake_{load}", bake, bake, "oven")
        formula.link(done, baked, 0, soon)
        firsts.append(baked if is_bare else shaped)
    if has_glaze:
        # The others alone are alike.
        formula.link(baked, formula.task("glaze", 3, 9, "hands"), 0, 10)
        firsts.pop()
    formula.extras(gather)
    random.shuffle(formula.tasks)
    random.shuffle(formula.links)
    ovens = 2 if is_bare else random.choice([1, 2, 2])
    resources = {"hands": 1, "oven": ovens, "hob": 1, "fridge": 1}
    drawn = {"tasks": formula.tasks, "links": formula.links, "resources": resources}
    return {**drawn, "alike": firsts}


def with_chores(random, drawn):
    """Beside a bake so many pieces of work that hang on nothing."""
    chores = [
        {"id": f"chore_{nth}", "minutes": random.randint(2, 15), "needs": ["hands"]}
        for nth in range(random.randint(4, 9))
    ]
    return {**drawn, "tasks": drawn["tasks"] + chores}


def shared(random, drawn):
    """A bake with little room that is held between tasks, and ovens that breads share at one heat.

    What was chilled stays in the fridge until the next task begins or ends, and something stands there from the first
    minute until a task starts, or from the start of one for ever. The tasks of each formula that need the oven
    are a block, in one of two states; of trays there are one or two.
    """
    tasks, links, resources = drawn["tasks"], drawn["links"], drawn["resources"]
    stays = []
    for link in links:
        own = next(task for task in tasks if task["id"] == link["from"])
        cold = "fridge" in own["needs"]
        if link["min"] >= 0 and (cold or random.random() < 0.1):
            if cold:
                own["needs"].remove("fridge")
            edge = {random.choice(["start", "start", "end"]): link["to"]}
            start = "start" if cold else random.choice(["start", "end"])
            if start == "end" and "start" in edge:
                # What takes no time at all is another matter.
                edge = {"end": link["to"]}
            stays.append({"resource": "fridge", "from": {start: link["from"]}, "to": edge})
    if random.random() < 0.4:
        until = random.choice(tasks)["id"]
        stays.append({"resource": "fridge", "from": "ever", "to": {"start": until}})
    if random.random() < 0.2:
        since = random.choice(tasks)["id"]
        stays.append({"resource": "fridge", "from": {"start": since}, "to": "ever"})
    resources["fridge"] = random.choice([1, 1, 2])
    if random.random() < 0.8:
        resources["oven"], resources["trays"] = 1, random.choice([1, 2, 2])
        states = {letter: random.randint(0, 1) for letter in "abc"}
        for task in tasks:
            if "oven" in task["needs"]:
                letter = task["id"][0]
                task["block"], task["state"] = ["oven", "abc".index(letter)], states[letter]
                if not task["id"].endswith("preheat"):
                    task["needs"].append("trays")
    return {**drawn, "stays": stays}
