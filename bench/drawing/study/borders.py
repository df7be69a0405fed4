"""Patches that lie side by side, and which border between two of them is worth the least."""

from __future__ import annotations

import heapq

Node = tuple[float, float, float, float]  # area, mean L*, a*, b*


class Borders:
    """Which nodes lie side by side, how long their border is, and a heap of what each border is worth."""

    def __init__(self, nodes: list[Node], pairs: list[list[int]], length: list[float]) -> None:
        self._nodes = nodes
        self._beside: list[dict[int, float]] = [{} for _ in nodes]
        self._gone = [False] * len(nodes)
        for (i, j), ell in zip(pairs, length, strict=True):
            self._beside[i][j] = self._beside[j][i] = ell
        self._heap = [
            (worth(nodes[i], nodes[j], ell), i, j) for (i, j), ell in zip(pairs, length, strict=True)
        ]
        heapq.heapify(self._heap)

    def cheapest(self) -> tuple[float, int, int] | None:
        """Return the border worth least, and the nodes beside it; None where all is one."""
        while self._heap:
            cost, i, j = heapq.heappop(self._heap)
            if not (self._gone[i] or self._gone[j]):
                return cost, i, j
        return None

    def join(self, i: int, j: int) -> None:
        """Make a new node of two; it has all their borders but the one between them."""
        k = len(self._nodes)
        self._nodes.append(_together(self._nodes[i], self._nodes[j]))
        most, fewer = self._beside[i], self._beside[j]
        if len(most) < len(fewer):
            most, fewer = fewer, most
        for n, ell in fewer.items():
            most[n] = most.get(n, 0.0) + ell
        for node in (i, j):
            most.pop(node, None)
            self._gone[node] = True
        for n, ell in most.items():
            near = self._beside[n]
            near.pop(i, None)
            near.pop(j, None)
            near[k] = ell
            heapq.heappush(self._heap, (worth(self._nodes[k], self._nodes[n], ell), n, k))
        self._beside.append(most)
        self._gone.append(False)


def worth(one: Node, other: Node, border: float) -> float:
    a, b = one[0], other[0]
    apart = (one[1] - other[1]) ** 2 + (one[2] - other[2]) ** 2 + (one[3] - other[3]) ** 2
    return a * b / (a + b) * apart / border


def _together(one: Node, other: Node) -> Node:
    total = one[0] + other[0]
    p, q = one[0] / total, other[0] / total
    return (total, p * one[1] + q * other[1], p * one[2] + q * other[2], p * one[3] + q * other[3])
