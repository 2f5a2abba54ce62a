"""What was made of a plan once and is asked for again: drawings, charts, files."""

import threading
from collections import OrderedDict
from collections.abc import Callable

from brimful.web.bench import Sight

MOST_BYTES = 32 * 1024 * 1024
_made: OrderedDict[tuple[str, str, bool, str], str | bytes] = OrderedDict()
_lock = threading.Lock()


def kept(sight: Sight, name: str, make: Callable[[], str | bytes]) -> str | bytes:
    """What `make` gives for a plan as it stands, made once; what was not asked for longest goes when room is short."""
    key = (str(sight.path), sight.digest, sight.whole, name)
    with _lock:
        if key in _made:
            _made.move_to_end(key)
            return _made[key]
    made = make()
    if sight.doing:
        return made
    with _lock:
        _made[key] = made
        while sum(map(len, _made.values())) > MOST_BYTES:
            _made.popitem(last=False)
    return made
