"""How do property tests run? The same examples each time, so that a change turns the gate red and chance does not.

`AMPWRIGHT_TEST_RANDOM=1 pytest` looks for new examples.
"""

import os

from hypothesis import settings

settings.register_profile("same examples", derandomize=True, deadline=None)
settings.register_profile("new examples", deadline=None)
settings.load_profile("new examples" if os.environ.get("AMPWRIGHT_TEST_RANDOM") else "same examples")
