"""The assembly graph: placed parts as nodes, what sits on what and who shares holes as edges."""

from __future__ import annotations

from typing import Any

from seqviz.assembly.structure import Assembly

__all__ = ["assembly_graph"]


def assembly_graph(assembly: Assembly) -> Any:
    """Return a ``networkx.MultiDiGraph`` of the structure.

    Nodes are placed parts. An edge with ``kind="sits on"`` runs from the upper to the lower part, with
    ``area`` in mm2 and ``gap`` in mm; one with ``kind="shares holes"`` runs from a layer to the next layer
    towards the tail, with the stack indices in ``stacks``.
    """
    import networkx as nx

    graph = nx.MultiDiGraph()
    for name, part in assembly.placed.items():
        graph.add_node(name, depth=part.depth, part=part.part.name)
    for contact in assembly.contacts:
        graph.add_edge(contact.upper, contact.lower, kind="sits on", area=contact.area, gap=contact.gap)
    shared: dict[tuple[str, str], list[int]] = {}
    for stack in assembly.stacks:
        for upper, lower in zip(stack.layers, stack.layers[1:], strict=False):
            shared.setdefault((upper.part, lower.part), []).append(stack.index)
    for (upper_part, lower_part), stacks in shared.items():
        graph.add_edge(upper_part, lower_part, kind="shares holes", stacks=tuple(stacks))
    return graph
