"""Topic about formulas for other programs: pages read with `extruct`, times with `isodate`."""

import re

import extruct
import isodate

from topic import Topic

STARTERS = ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"]
# What could end a script, begin a tag or be taken for an entity.
LETTERS = ["a", "b", " ", "é", "½", "面", "🥐", "<", ">", "&", '"', "'", "</script>", "<script>", "&amp;", "\\", "\\u003c", "-->", "]]>"]


def text_of(random):
    return "".join(random.choice(LETTERS) for _ in range(random.randrange(1, 12)))


def steps_of(recipe):
    """All steps of all sections, in order."""
    for section in recipe["recipeInstructions"]:
        assert section["@type"] == "HowToSection"
        yield from section["itemListElement"]


class Recipes(Topic):
    name = "recipes for other programs (extruct, isodate)"
    topic = "recipe"
    # Masses are written to a hundredth of a gram, times to the minute.
    tolerance = 1.0

    def case(self, random):
        return {
            "starter": random.choice(STARTERS),
            # Two of the lightest are as much dough as is scaled to at least.
            "count": random.randrange(2, 30),
            "mass_g": random.uniform(60.0, 400.0),
            "name": text_of(random),
            "ingredient": text_of(random),
        }

    def check(self, inputs, answer):
        found = extruct.extract(answer["page"], syntaxes=["json-ld"])["json-ld"]
        assert len(found) == 1 and found[0]["@type"] == "Recipe" and "https://schema.org" in found[0]["@context"]
        recipe = found[0]
        assert recipe["name"] == inputs["name"]
        listed = [line for line in recipe["recipeIngredient"] if re.match(r"[0-9.]+ g ", line)]
        assert len(listed) == len(answer["parts"])
        worst = 0.0
        for line, (name, grams) in zip(listed, answer["parts"]):
            amount, said = line.split(" g ", 1)
            assert said == name
            worst = max(worst, abs(float(amount) - grams) / 0.005001)
        steps = list(steps_of(recipe))
        assert len(steps) == len(answer["steps"])
        for step, (title, instruction, minutes) in zip(steps, answer["steps"]):
            assert step["@type"] == "HowToStep" and step["name"] == title and step["text"].startswith(instruction)
            if minutes is None:
                assert "performTime" not in step
            else:
                told = isodate.parse_duration(step["performTime"]).total_seconds() / 60
                worst = max(worst, abs(told - minutes) / 0.5001)
        # Nothing of a name became a tag: what is shown has as many as a plain page.
        assert answer["page"].count("<script") == 1 and answer["page"].count("</script") == 1
        return worst


TOPICS = [Recipes()]
