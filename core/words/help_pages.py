"""The longer pages of the Help menu: what the keyboard does, and what the program is."""

from typing import Final

KEYS: Final = """\
Everywhere
  Ctrl+1 or F5   Gear
  Ctrl+2 or F6   Height
  Ctrl+3 or F7   Ladder
  Alt+W   why the answer is what it is
  Alt+U   say that the telescope is outside now
  Alt+R   the hours that you are outside this evening
  Ctrl+. and Ctrl+,   stay out half an hour longer, shorter
  Alt+O   on Height: the evening in words
  Alt and an underlined letter   go to that control
  Tab, Shift+Tab   next and previous control
  F9   next palette: day, dusk, night
  Ctrl+F9, Shift+F9   night palette dimmer, brighter
  F11   full screen, without bright frames of the desktop
  Ctrl++, Ctrl+-, Ctrl+0   text larger, smaller, usual
  F1   this list
  F2, or a click on a word   what the words on the screen mean
  F2, F9, F11 and the keys of the text size work in dialogs too

Profile
  Ctrl+N, Ctrl+O   new, open
  Ctrl+S, Ctrl+Shift+S   save, save as
  a file dropped on the window   opens it
  Ctrl+P   the evening on paper, in a calendar or as a table
  Ctrl+Z   undo
  Ctrl+Shift+Z or Ctrl+Y   redo
  Ctrl+Q   quit

Gear
  1 to 7, in the table of powers   sort by a column
  Ctrl+C, in a table   copy it for a spreadsheet
  Page Up, Page Down, in the picture of the horizon   choose an obstacle
  Arrows there   move and raise it; with Shift by five degrees
  Ctrl+Left, Ctrl+Right; Alt+Left, Alt+Right   move its first edge; its second edge
  Ctrl+Delete, there and in the tables under it   take it away
  Esc, with two scopes side by side   back

Height, with the chart in focus
  Left, Right   one minute back, forward
  Shift+Left, Shift+Right   ten minutes
  Ctrl+Left, Ctrl+Right   one hour
  Page Up, Page Down   one evening back, forward
  Home   back to now
  Up, Down   previous, next planet

Ladder, with the drawing in focus
  Up, Down   the next rung worth a step up, down
  Page Up, Page Down   one rung up, down
  Home, End   lowest rung, highest rung
  M, N, L, C   the step showed more detail, no change, less detail, cannot tell
  W   why the view is soft
  1, 2, 3   first look at the air: steady, fair, boiling
  E, anywhere Ctrl+E   at the eyepiece: large words for the dark

At the eyepiece
  Up, Down   the next rung worth a step up, down
  Enter   what stands as next
  M, N, L, C   verdicts, as in the Ladder view
  Backspace   take the last verdict back
  1, 2, 3   first look at the air, as there
  F   the next of your filters, then none
  - and +, or < and >   dimmer, brighter
  Esc   leave; no other key does
"""
ABOUT: Final = """\
A desktop assistant for looking at planets through your own telescope: what your kit gives, when and where \
each planet stands high enough, and how far up the power ladder tonight's air lets you climb.

Never look at or near the Sun through any optics: it blinds.

Limits and ceilings are rules of thumb, and where a figure is an estimate the window says so.

Nothing is ever sent, and no network is used. After an error inside the program a report without personal \
data lies in {report}; whoever helps you may ask for it and for these versions:

{versions}

"""
