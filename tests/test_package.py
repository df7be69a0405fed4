"""The wheel carries all that the app needs, and works where no checkout is near."""

import json
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
FOLDERS = ("kv", "assets", "shared")


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """Build the wheel with the build backend that is installed, without a network."""
    out = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", out, ROOT],
        check=True,
        capture_output=True,
    )
    return next(out.glob("*.whl"))


@pytest.mark.slow
def test_the_wheel_carries_every_kv_asset_and_table_inside_the_package(wheel):
    names = set(zipfile.ZipFile(wheel).namelist())
    for folder in FOLDERS:
        ours = [p for p in (ROOT / folder).rglob("*") if p.is_file()]
        assert ours
        missing = [p for p in ours if f"bench/_data/{p.relative_to(ROOT).as_posix()}" not in names]
        assert missing == []
    tops = {name.split("/")[0] for name in names}
    assert {t for t in tops if not t.endswith(".dist-info")} == {"bench"}
    assert not [n for n in names if "tests" in n.split("/")]


@pytest.mark.slow
def test_an_installed_wheel_plans_the_demo_outside_the_tree(wheel, tmp_path):
    """A new environment that sees this one's libraries, but not the checkout."""
    home = tmp_path / "env"
    venv.create(home, with_pip=False)
    scripts = home / ("Scripts" if sys.platform == "win32" else "bin")
    site = next(p for p in home.rglob("site-packages") if p.is_dir())
    libraries = next(Path(p) for p in sys.path if p.endswith("site-packages"))
    (site / "libraries.pth").write_text(f"{libraries}\n")
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check"]
    python = str(scripts / "python")
    subprocess.run(
        [
            *pip,
            "--python",
            python,
            "install",
            "--no-deps",
            "--no-index",
            "--quiet",
            "--ignore-installed",
            wheel,
        ],
        check=True,
        capture_output=True,
        cwd=tmp_path,
    )
    probe = (
        "import bench, bench.resources as r; print(bench.__file__); "
        "print(r.resource('assets', 'demo', 'lemons.svg'))"
    )
    found = subprocess.run(
        [python, "-c", probe], check=True, capture_output=True, text=True, cwd=tmp_path
    ).stdout.split()
    assert all(Path(line).is_relative_to(site) for line in found)
    done = subprocess.run(
        [scripts / "potwatch", "plan", found[1], "--json", "-"],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
        env={"POTWATCH_HOME": str(tmp_path / "home"), "PATH": "/usr/bin:/bin"},
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["panel"]["tessera_count"] > 1900
