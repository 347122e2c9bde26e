"""Values of a map between its points."""

import numpy as np

from core.arrays import Values


def bilinear(values: Values, row: Values, column: Values) -> Values:
    """Return values (rows, columns) at fractions of rows and columns, any shape, mixed in proportion.

    Beyond the edges the values of the edge hold.
    """
    rows, columns = values.shape
    row, column = np.clip(row, 0.0, rows - 1.001), np.clip(column, 0.0, columns - 1.001)
    whole_row, whole_column = np.floor(row), np.floor(column)
    down, right = row - whole_row, column - whole_column
    first = whole_row.astype(np.intp) * columns + whole_column.astype(np.intp)
    flat = values.ravel()
    here, under = flat.take(first), flat.take(first + columns)
    upper = here + right * (flat.take(first + 1) - here)
    lower = under + right * (flat.take(first + columns + 1) - under)
    return np.asarray(upper + down * (lower - upper), dtype=np.float32)
