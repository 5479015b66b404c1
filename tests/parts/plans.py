"""Plans and ways to spoil them, for the tests of the reader and of the commands."""

from hypothesis import strategies as st

SHORT = """
[walls]
outline = [["0'", "0'"], ["46'-8\\"", "0'"], ["46'-8\\"", "28'"], ["0'", "28'"]]
[roof]
type = "hip"
pitch = "5:12"
[wind]
speed = 160
exposure = "C"
"""
LENGTHS = 'write 12\'-4 1/2", 12ft 4in, 24" or plain feet such as 12.375'

SMALL = """# invented
[walls]
outline = [["0'", "0'"], ["20'", "0'"], ["20'", "16'"], ["0'", "16'"]]
[roof]
type = "gable"
pitch = "5:12"
[trusses]
spacing = "4'"
[wind]
speed = 140
exposure = "B"
"""


def with_(section: str, lines: str) -> str:
    """The short plan with lines added to a section, or a new section at its end."""
    head = f"[{section}]\n"
    return SHORT.replace(head, head + lines + "\n") if head in SHORT else f"{SHORT}{head}{lines}\n"


def outlined(corners: str) -> str:
    """The short plan with other corners."""
    return SHORT.replace(SHORT.splitlines()[2], f"outline = {corners}")


def porch_text(corners: str) -> str:
    """The short plan with a porch beam along W3 and a porch of these corners."""
    beam = '[[support]]\nkind = "beam"\nfrom = [10, 28]\nto = [30, 28]\n'
    return f"{SHORT}{beam}[[porch]]\ncorners = {corners}\n"


def damaged(data: st.DataObject, good: str) -> bytes:
    """A good plan with bytes cut and put in, or with one word changed for another of its words."""
    words = good.replace(",", " ").split()
    if data.draw(st.booleans()):
        new = good.replace(data.draw(st.sampled_from(words)), data.draw(st.sampled_from(words)))
        return new.encode()
    raw = good.encode()
    at, cut = data.draw(st.integers(0, len(raw))), data.draw(st.integers(0, 12))
    return raw[:at] + data.draw(st.binary(max_size=4)) + raw[at + cut :]
