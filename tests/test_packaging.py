"""The artefact is tested: what the wheel holds, and that it starts without the checkout."""

import os
import subprocess
import sys
import tomllib
from pathlib import Path
from zipfile import ZipFile

import pytest

ROOT = Path(__file__).parent.parent


def _tracked(*paths: str) -> set[str]:
    listed = subprocess.run(
        ["git", "ls-files", *paths], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return set(listed.stdout.split())


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    return next(folder.glob("*.whl"))


def _names(wheel: Path) -> set[str]:
    return set(ZipFile(wheel).namelist())


def test_the_wheel_holds_every_data_file(wheel: Path) -> None:
    data = _tracked("schema")
    assert data
    assert {f"extract/{name}" for name in data} <= _names(wheel)


def test_the_wheel_holds_every_module_and_nothing_of_tests_or_corpora(wheel: Path) -> None:
    names = _names(wheel)
    assert _tracked("extract") <= names
    assert {name.split("/")[0] for name in names if ".dist-info/" not in name} == {"extract"}


def test_the_wheel_carries_the_licence(wheel: Path) -> None:
    assert any(name.endswith("/licenses/LICENSE") for name in _names(wheel))


def test_the_entry_points_of_the_wheel_exist(wheel: Path) -> None:
    points = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    targets = list(points["scripts"].values())
    targets += points.get("entry-points", {}).get("spacy_factories", {}).values()
    code = "\n".join(
        f"from {module} import {name}" for module, name in (t.split(":") for t in targets)
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=wheel.parent)


def test_the_wheel_reads_its_own_data(wheel: Path, tmp_path: Path) -> None:
    ZipFile(wheel).extractall(tmp_path)
    code = "import extract.resources as r; print(r.__file__, r.resource('names.yaml'))"
    printed = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env=os.environ | {"PYTHONPATH": str(tmp_path)},
    )
    module, data = map(Path, printed.stdout.split())
    assert module.is_relative_to(tmp_path)
    assert data.is_relative_to(tmp_path)
    assert data.is_file()


def test_no_dependency_is_unused() -> None:
    """Each runtime dependency is imported somewhere in the package."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    modules = {"pyyaml": "yaml", "cyclonedx-python-lib": "cyclonedx"}
    code = "\n".join(
        (ROOT / name).read_text(encoding="utf-8") for name in _tracked("extract/*.py", "extract/**")
    )
    for dependency in project["dependencies"]:
        name = dependency.split(">")[0].split("<")[0].split("=")[0].strip()
        name = name.split("[")[0]
        module = modules.get(name, name)
        imported = f"import {module}" in code or f"from {module}" in code
        assert imported or f'engine="{module}"' in code, name  # pandas imports its engines itself
