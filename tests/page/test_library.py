"""The 3D library stands in the installed package where the page looks for it; another trimesh may differ."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from seqviz.page import library as module
from seqviz.page.library import LICENCE, NoLibrary, library

ROOT = Path(__file__).parents[2]


def test_the_installed_package_holds_it() -> None:
    code = library().code
    # Its own header, which names the licence, and its number.
    assert code.startswith(
        "/**\n * @license\n * Copyright 2010-2022 Three.js Authors\n * SPDX-License-Identifier: MIT"
    )
    assert 'const e="140"' in code
    for word in ("InstancedMesh", "Raycaster", "MeshPhongMaterial", "OrthographicCamera", "DataTexture"):
        assert f"t.{word}=" in code, word
    assert "var camera" not in code


def test_nothing_in_it_ends_its_script_element() -> None:
    code = library().code.lower()
    assert not any(word in code for word in ("</script", "<script", "<!--"))


def test_its_licence_is_the_one_of_the_docs() -> None:
    written = (ROOT / "docs" / "third-party.md").read_text(encoding="utf-8")
    words = " ".join(line.removeprefix(">").strip() for line in written.splitlines())
    terms = " ".join(LICENCE.split())
    assert terms[terms.index("Permission is") :] in " ".join(words.split())
    assert "Copyright © 2010-2022 Three.js Authors" in terms


@pytest.mark.parametrize(
    "template",
    [
        "<html>",
        "<script>e.THREE={} Copyright 2010-2022 Three.js Authors",
        "<script>something else var camera,controls,scene",
        "<script>THREE={} Copyright 2010-2022 Three.js Authors <!-- var camera,controls,scene",
    ],
)
def test_another_template_is_told(template: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_template", lambda: template)
    with pytest.raises(NoLibrary, match="pip install 'trimesh>="):
        library()


def test_a_package_without_the_file_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "trimesh").mkdir()
    (tmp_path / "trimesh" / "__init__.py").write_text("", encoding="utf-8")
    monkeypatch.setattr(sys, "path", [str(tmp_path)])
    monkeypatch.delitem(sys.modules, "trimesh", raising=False)
    with pytest.raises(NoLibrary):
        library()


def test_trimesh_is_not_imported_for_it() -> None:
    program = (
        "import sys; from seqviz.page.library import library; library(); print('trimesh' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout == "False\n"
