"""The cascade: presentation attributes, then style sheets by specificity, then a shape's own style."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice

from bench.drawing.paint import is_paint
from bench.drawing.xmltree import Node

Declaration = tuple[str, str, bool]  # property, value, important

_BRACE = re.compile(r"[{}]")
_COMPOUND = re.compile(r"(?P<tag>\*|[\w-]+)?(?P<more>(?:[.#][\w-]+)*)$")
_MOST_RULES = 20_000
_LONGEST_SELECTOR = 1_000
_MOST_NESTED_RULES = 500  # each is tried on every shape, so there may not be endlessly many


@dataclass(frozen=True, slots=True)
class Compound:
    """One step of a selector, such as `path.glass#a1`."""

    tag: str
    id: str
    classes: frozenset[str]

    def fits(self, node: Node) -> bool:
        return (
            (not self.tag or self.tag == node.tag)
            and (not self.id or self.id == node.attributes.get("id"))
            and (not self.classes or self.classes <= classes_of(node))
        )


@dataclass(frozen=True, slots=True)
class Rule:
    """A selector's steps, the outermost first; `child[k]` tells that step k + 1 is a child of step k."""

    steps: tuple[Compound, ...]
    child: tuple[bool, ...]
    weight: tuple[int, int, int, int]  # ids, classes, tags, place in the file
    properties: tuple[Declaration, ...]

    def fits(self, node: Node, above: Sequence[Node]) -> bool:
        """Tell whether the rule holds for `node` inside `above`, the root first."""
        if not self.steps[-1].fits(node):
            return False
        ends = {len(above)}  # above[:end] may hold the steps still to be found
        for step, child in zip(self.steps[-2::-1], self.child[::-1], strict=True):
            places = {end - 1 for end in ends} - {-1} if child else range(max(ends))
            ends = {place for place in places if step.fits(above[place])}
            if not ends:
                return False
        return True


def classes_of(node: Node) -> frozenset[str]:
    return frozenset(node.attributes.get("class", "").split())


@lru_cache(maxsize=4096)
def declarations(text: str) -> tuple[Declaration, ...]:
    """Return the declarations of a style text; what cannot be read is passed over."""
    found = []
    for part in text.split(";"):
        key, colon, value = part.partition(":")
        value, bang, _ = value.partition("!")
        key, value = key.strip().lower(), value.strip()
        if colon and (key not in ("fill", "color") or is_paint(value)):
            found.append((key, value, bool(bang)))
    return tuple(found)


class StyleSheet:
    """The rules of every `<style>` of a drawing.

    Types, classes, ids and `*` are read, alone, joined (`path.glass`) or as descendants and children;
    selectors of any other kind and @-rules are passed over, as a viewer does with what it does not know.
    """

    def __init__(self, texts: Sequence[str]) -> None:
        rules: list[Rule] = []
        nested = 0
        blocks = ((head, declarations(body)) for head, body in _blocks("\n".join(texts)))
        selectors = ((one, properties) for head, properties in blocks for one in head.split(","))
        for one, properties in islice(selectors, _MOST_RULES):
            rule = _rule(one, len(rules), properties)
            if rule and (len(rule.steps) == 1 or nested < _MOST_NESTED_RULES):
                nested += len(rule.steps) > 1
                rules.append(rule)
        self._nested = nested > 0
        self._by_key: dict[str, list[Rule]] = {}
        for rule in rules:
            self._by_key.setdefault(_key(rule), []).append(rule)
        self._known: dict[tuple[str, str, str], tuple[Declaration, ...]] = {}

    def look(self, node: Node, above: Sequence[Node]) -> dict[str, str]:
        """Return the node's attributes with every style that applies to it laid over them."""
        own = node.attributes.get("style")
        if own is None and not self._by_key:
            return node.attributes
        laid = self._sheet(node, above) + (declarations(own) if own else ())
        look = dict(node.attributes)
        look.update((key, value) for key, value, important in laid if not important)
        look.update((key, value) for key, value, important in laid if important)
        return look

    def _sheet(self, node: Node, above: Sequence[Node]) -> tuple[Declaration, ...]:
        """Return what the sheets say of a node, the weightiest rule last."""
        if not self._by_key:
            return ()
        name, words = node.attributes.get("id", ""), node.attributes.get("class", "")
        asked = (node.tag, name if "#" + name in self._by_key else "", words)
        if not self._nested and asked in self._known:
            return self._known[asked]
        keys = ("*", node.tag, "#" + name, *("." + word for word in classes_of(node)))
        found = [rule for key in keys for rule in self._by_key.get(key, ()) if rule.fits(node, above)]
        found.sort(key=lambda rule: rule.weight)
        laid = tuple(one for rule in found for one in rule.properties)
        if not self._nested:
            self._known[asked] = laid
        return laid


def _key(rule: Rule) -> str:
    """Name the one thing that a node must have for the rule to be worth a look."""
    last = rule.steps[-1]
    if last.id:
        return "#" + last.id
    if last.classes:
        return "." + min(last.classes)
    return last.tag or "*"


def _blocks(text: str) -> Iterator[tuple[str, str]]:
    """Yield (selector, body) of the plain rules; @-rules are skipped whole, with what they hold."""
    text = _without_comments(text)
    place = 0
    while (brace := text.find("{", place)) >= 0:
        head = text[place:brace].rpartition(";")[2].strip()
        end = _closing(text, brace) if head.startswith("@") else text.find("}", brace)
        end = len(text) if end < 0 else end
        if not head.startswith("@"):
            yield head, text[brace + 1 : end]
        place = end + 1


def _without_comments(text: str) -> str:
    parts, place = [], 0
    while (start := text.find("/*", place)) >= 0:
        parts.append(text[place:start])
        end = text.find("*/", start + 2)
        place = end + 2 if end >= 0 else len(text)
    return " ".join([*parts, text[place:]]).replace("<!--", " ").replace("-->", " ")


def _closing(text: str, brace: int) -> int:
    depth = 0
    for found in _BRACE.finditer(text, brace):
        depth += 1 if found.group() == "{" else -1
        if depth == 0:
            return found.start()
    return len(text)


def _rule(selector: str, place: int, properties: tuple[Declaration, ...]) -> Rule | None:
    """Read one selector; None where it is of a kind that is not read."""
    if len(selector) > _LONGEST_SELECTOR:
        return None
    words = re.sub(r"\s*>\s*", " >", selector.strip()).split()
    steps = [_compound(word.removeprefix(">")) for word in words]
    child = tuple(word.startswith(">") for word in words)
    known = [step for step in steps if step is not None]
    if not steps or len(known) < len(steps) or child[0]:
        return None
    ids, tags = sum(bool(step.id) for step in known), sum(bool(step.tag) for step in known)
    weight = (ids, sum(len(step.classes) for step in known), tags, place)
    return Rule(tuple(known), child[1:], weight, properties)


def _compound(word: str) -> Compound | None:
    found = _COMPOUND.match(word)
    if not word or not found:
        return None
    more = re.findall(r"[.#][\w-]+", found["more"])
    ids = [name[1:] for name in more if name[0] == "#"]
    classes = frozenset(name[1:] for name in more if name[0] == ".")
    tag = "" if found["tag"] in (None, "*") else found["tag"]
    return Compound(tag, ids[0] if ids else "", classes) if len(ids) <= 1 else None
