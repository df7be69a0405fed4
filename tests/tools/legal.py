"""Judge a division by code the divider never sees: networkx for connection, fractions for sums."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import networkx as nx
import numpy as np

from bench.sections.ground import Ground


def faults_of(ground: Ground, label: Sequence[int]) -> list[str]:
    """List what breaks a hard rule: connection, capacity (a lone tessera excepted), one adhesive."""
    if len(label) != ground.count:
        return ["not every tessera has a section"]
    graph = nx.Graph()
    graph.add_nodes_from(range(ground.count))
    graph.add_edges_from(ground.pair.tolist())
    found = []
    for section in sorted({int(x) for x in label}):
        own = [v for v in range(ground.count) if label[v] == section]
        if not nx.is_connected(graph.subgraph(own)):
            found.append(f"section {section} is in pieces")
        kinds = {int(ground.adhesive[v]) for v in own}
        if len(kinds) > 1:
            found.append(f"section {section} mixes adhesives")
        total = sum((Fraction(float(ground.expected_s[v])) for v in own), Fraction(0))
        cap = Fraction(float(ground.capacity_s[kinds.pop()]))
        if len(own) > 1 and total > cap:
            found.append(f"section {section} is over its capacity")
    return found


def bound_of(ground: Ground) -> int:
    """Count the fewest sections there could be, by networkx and fractions."""
    graph = nx.Graph()
    alone = [
        float(ground.expected_s[v]) > float(ground.capacity_s[ground.adhesive[v]])
        for v in range(ground.count)
    ]
    graph.add_nodes_from(range(ground.count))
    graph.add_edges_from(
        (a, b)
        for a, b in ground.pair.tolist()
        if ground.adhesive[a] == ground.adhesive[b] and not alone[a] and not alone[b]
    )
    total = 0
    for part in nx.connected_components(graph):
        own = sorted(part)
        seconds = sum((Fraction(float(ground.expected_s[v])) for v in own), Fraction(0))
        cap = Fraction(float(ground.capacity_s[ground.adhesive[own[0]]]))
        total += 1 if len(own) == 1 else max(1, int(np.ceil(float(seconds / cap))))
    return total
