"""Compiled templates are kept and used again; what one manual's filters make of them is not."""

from jinja2 import DictLoader

from generator.templating import page_environment


def shown(text: str, unit: str) -> str:
    environment = page_environment()
    environment.loader = DictLoader({"page": text})
    environment.filters["size"] = lambda value: f"{value} {unit}"
    return environment.get_template("page").render()


def test_a_kept_template_takes_the_filters_of_the_manual_that_fills_it() -> None:
    text = '{{ 3|size }}{% if 3|size == "3 mm" %}, metric{% endif %}'
    assert [shown(text, unit) for unit in ("mm", "in", "mm")] == ["3 mm, metric", "3 in", "3 mm, metric"]


def test_a_changed_template_is_compiled_anew() -> None:
    assert [shown(text, "mm") for text in ("one", "two", "one")] == ["one", "two", "one"]
