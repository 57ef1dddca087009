"""How was a message read: which rule took which characters, and what came of it?"""

from bot.model.base import Frozen
from bot.model.reading import Reading
from bot.text.read import read


def explain(text: str) -> str:
    """A page for developers: the spans and rules in order, the acts, what stayed open or unread.

    >>> print(explain("160 into 18"))
    text    160 into 18
    rules
       4-8   wind.into                dir.line       'into'
       4-11  wind.dir_num             got.wind       'into 18'
    acts
      shot
        facts.distance.value = 160.0
        facts.wind.speed.value = 18.0
        facts.wind.from_deg = 0.0
    open    nothing
    unread  nothing
    """
    return page(read(text))


def page(reading: Reading) -> str:
    """The same page for a reading at hand."""
    lines = [f"text    {reading.text}", "rules"]
    lines += [
        f"  {f.span.start:>2}-{f.span.end:<3} {f.rule:<24} {f.value:<14} {f.span.text!r}"
        for f in reading.trace
    ]
    lines.append("acts")
    for act in reading.acts:
        kind = getattr(act, "kind", None)
        lines.append(f"  {act.act}" + (f" {kind}" if kind and kind != "shot" else ""))
        lines += [f"    {path} = {value!r}" for path, value in _leaves(act, "")]
    choices = [f"{c.about} {' or '.join(c.options)} {c.span.text!r}" for c in reading.open]
    lines.append("open    " + ("; ".join(choices) or "nothing"))
    lines.append("unread  " + ("; ".join(repr(s.text) for s in reading.unread) or "nothing"))
    return "\n".join(lines)


def _leaves(value: Frozen, path: str) -> list[tuple[str, object]]:
    """Every value that was told, under its dotted path."""
    out: list[tuple[str, object]] = []
    for name, field in type(value).model_fields.items():
        told = getattr(value, name)
        if told == field.default or name == "act" or (name == "kind" and not path):
            continue
        here = f"{path}{name}"
        if isinstance(told, Frozen):
            out += _leaves(told, here + ".")
        elif isinstance(told, tuple) and told and isinstance(told[0], Frozen):
            for at, item in enumerate(told):
                out += _leaves(item, f"{here}[{at}].")
        else:
            out.append((here, told))
    return out
