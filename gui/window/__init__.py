"""The window itself: strip, answer, menus and the frame round the three views."""
