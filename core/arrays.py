"""Names for the arrays that the rooms hand to one another; a docstring tells their shape."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Truths = NDArray[np.bool_]
# Brightness and the like, where so many are needed that half the digits must do.
Values = NDArray[np.float32]
