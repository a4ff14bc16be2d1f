"""Where everything must be there (SHEETGEN_NO_SKIPS is set), a test that skips fails."""

import os

import pytest


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    report = yield
    if report.skipped and os.environ.get("SHEETGEN_NO_SKIPS") and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} skipped, and here nothing may skip: {report.longrepr}"
    return report
