"""What holds for all tests: no skips where everything must be there, files shared by the workers, less tidying up."""

import gc
import os
from collections import OrderedDict
from hashlib import sha256

import pytest

from sheetgen import store
from sheetgen.workbook.read import file as reading
from tests.kept import keep_in
from tests.scheduling import Together, is_slow, rank


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    """Where SHEETGEN_NO_SKIPS is set, a test that skips fails."""
    report = yield
    if report.skipped and os.environ.get("SHEETGEN_NO_SKIPS") and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} skipped, and here nothing may skip: {report.longrepr}"
    return report


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """With several workers, tests that share what takes long to make stay together."""
    return Together(config, log) if config.getvalue("dist") == "load" else None


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    """Slow ones are marked before any are chosen; the longest groups first, so that no worker sits idle at the end."""
    for item in items:
        if is_slow(item.nodeid) and item.get_closest_marker("long") is None:
            item.add_marker("slow")
    items.sort(key=lambda item: rank(item.nodeid))


def pytest_collection_finish():
    """All modules are loaded and stay: looking through them for garbage again and again took a fifth of the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 20, 10)


@pytest.fixture(scope="session", autouse=True)
def _shared_files(tmp_path_factory, request):
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if hasattr(request.config, "workerinput") else base) / "kept"
    folder.mkdir(exist_ok=True)
    keep_in(folder)
    os.environ[store.SETTING] = str(folder.parent / "store")


_LOADED_AT_MOST = 16


@pytest.fixture(scope="session", autouse=True)
def _loaded_once():
    """A file of the same bytes is loaded once a worker: most tests start from one of a few, and nothing writes into what was loaded."""
    known = OrderedDict()

    def loaded(path, load):
        try:
            key = sha256(path.read_bytes()).digest() + path.suffix.encode()
        except OSError:  # which is said in words by whoever loads it
            key = b""
        found = known.pop(key, None) or load(path)
        if key:
            known[key] = found
        if len(known) > _LOADED_AT_MOST:
            known.popitem(last=False)
        return found

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(reading, "read_before", loaded)
        yield
