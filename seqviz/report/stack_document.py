"""Stacks and contacts as JSON, for programs; lengths in mm whatever the model is written in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from seqviz.assembly.structure import Contact, Layer, Stack
from seqviz.report.choice_document import choice_document
from seqviz.report.documents import FORMAT, json_text
from seqviz.scene.setting import Setting

__all__ = ["stacks_as_json"]

_DECIMALS = 4


_NONE: Mapping[int, Setting] = {}


def stacks_as_json(
    model: str,
    stacks: Iterable[Stack],
    contacts: Iterable[Contact],
    settings: Mapping[int, Setting] = _NONE,
) -> str:
    """Return the JSON of ``seqviz stack --json``; ``settings``: what is in, by stack."""
    return json_text(
        {
            "format": FORMAT,
            "model": model,
            "units": "mm",
            "stacks": [_stack(stack, settings.get(stack.index)) for stack in stacks],
            "contacts": [_contact(contact) for contact in contacts],
        }
    )


def _stack(stack: Stack, setting: Setting | None) -> dict[str, Any]:
    return {
        "holes": list(stack.holes),
        "layers": [_layer(layer) for layer in stack.layers],
        "gaps": [_rounded(gap) for gap in stack.gaps],
        "grip": _rounded(stack.grip),
        "diameter": _rounded(stack.diameter),
        "pin": _rounded(stack.pin),
        "size": stack.size,
        "fastener": stack.fastener,
        "length": None if stack.length is None else _rounded(stack.length),
        "choice": None if stack.choice is None else choice_document(stack.choice, "mm"),
        "located": stack.located,
        "set": None if setting is None else _setting(setting),
    }


def _setting(setting: Setting) -> dict[str, Any]:
    return {
        "step": setting.step,
        "finger_tight": setting.by_hand,
        "tightened": setting.tightened,
        "tools": list(setting.tools),
    }


def _layer(layer: Layer) -> dict[str, Any]:
    return {"part": layer.part, "hole": layer.hole, "thickness": _rounded(layer.thickness)}


def _contact(contact: Contact) -> dict[str, Any]:
    return {
        "upper": contact.upper,
        "lower": contact.lower,
        "area": _rounded(contact.area),
        "gap": _rounded(contact.gap),
    }


def _rounded(number: float) -> float:
    """Return the number without the noise of its last digits, and never minus nothing."""
    return round(number, _DECIMALS) + 0.0
