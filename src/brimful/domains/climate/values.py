"""What the climate formulas take and give: one number, or one number a day."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

FloatArray: TypeAlias = NDArray[np.float64]
Values: TypeAlias = float | FloatArray
