"""How do property tests run? The same examples each time, so that a change turns the gate red and chance does not.

`AMPWRIGHT_TEST_RANDOM=1 pytest` looks for new examples.
"""

import os

import pytest
from fuzzed_cases import enough
from hypothesis import settings

settings.register_profile("same examples", derandomize=True, deadline=None)
settings.register_profile("new examples", deadline=None)
settings.load_profile("new examples" if os.environ.get("AMPWRIGHT_TEST_RANDOM") else "same examples")


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    terminal = session.config.pluginmanager.get_plugin("terminalreporter")
    if terminal is not None and not hasattr(session.config, "workerinput") and not enough(terminal):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
