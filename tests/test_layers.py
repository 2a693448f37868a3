"""Imports go one way: what stands lower knows nothing of what stands higher."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "extract"

# From the highest layer to the lowest. A module may import from lower layers and from its own
# package; two packages of one layer do not know each other.
LAYERS = (
    {"__init__"},
    {"cli"},
    {"commands"},
    {"call"},
    {"explain", "review", "drafting"},
    {"plots"},
    {"statistics", "learning", "publishing"},
    {"shelf"},
    {"scoring"},
    {"work", "show", "pipeline"},
    {"components", "settle", "saving"},
    {"settings_file"},
    {"settings"},
    {"assembly"},
    {"hearing", "merging"},
    {"plausibility"},
    {"narration", "mentions", "record"},
    {"vocabulary", "lexicon", "units"},
    {"unit_table"},
    {"workers", "remote"},
    {"resources", "errors"},
)
HEIGHT = {name: height for height, names in enumerate(reversed(LAYERS)) for name in names}


def _part(module: str) -> str:
    """extract.mentions.kinds -> mentions"""
    return module.split(".")[1] if "." in module else "__init__"


def _imported(path: Path) -> set[str]:
    """The parts of the package that a module imports, inside functions too."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            module = str(node.module)
            whole = module == "extract"
            found |= {f"{module}.{alias.name}" for alias in node.names} if whole else {module}
    return {_part(name) for name in found if name.split(".")[0] == "extract"}


MODULES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_imports_only_from_lower_layers_and_its_own_package(path: Path) -> None:
    own = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    lower = {name for name in HEIGHT if HEIGHT[name] < HEIGHT[own]}
    assert _imported(path) <= lower | {own}


def test_every_part_of_the_package_has_a_layer() -> None:
    parts = {path.relative_to(PACKAGE).parts[0].removesuffix(".py") for path in MODULES}
    assert parts == set(HEIGHT)


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_are_absolute(path: Path) -> None:
    tree = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    assert not [node for node in tree if isinstance(node, ast.ImportFrom) and node.level]


def test_the_data_folder_holds_no_code() -> None:
    code = [path.name for path in (PACKAGE.parent / "schema").rglob("*.py")]
    assert code == []
