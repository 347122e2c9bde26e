"""What Qt's models and delegates are asked about."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex

AnyIndex = QModelIndex | QPersistentModelIndex
# The parent of what has none.
NO_INDEX = QModelIndex()
