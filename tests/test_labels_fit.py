"""Words always fit their box, whatever they are."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labels.canvas import Canvas
from labels.content import Label, LabelKind
from labels.face import Box, draw_face
from labels.words_in_box import clusters, fit
from stash.fonts import printable

SIZES = (13.0, 4.5)


@pytest.fixture(scope="module")
def canvas():
    """A page to measure words on."""
    with Canvas((210, 297)) as canvas:
        yield canvas


class Read(Canvas):
    """A page that remembers the words on it: {words: size in points}."""

    def __init__(self):
        super().__init__((210, 297))
        self.told = {}
        self.add_page()

    def words(self, text, at_mm, size_pt, bold=False):
        """Remember, and draw."""
        self.told[text.replace("\u00a0", " ")] = size_pt
        super().words(text, at_mm, size_pt, bold)


@pytest.mark.parametrize(("box", "least_pt"), [
    ((63.5, 33.9), 6.0), ((66.7, 25.4), 5.0), ((38.1, 21.2), 4.5)])
@pytest.mark.parametrize("name", ["Linen-covered buttons", "Light woven interfacing", "Zip"])
def test_a_long_name_leaves_the_facts_a_readable_line_each(box, least_pt, name):
    """On three common sheets, their labels' sizes in mm: size, material and place are all there."""
    label = Label(code="B764GE", kind=LabelKind.BIN, name=name, size="17 mm (27L)",
                  fibre="linen", place="Tin row B")
    with Read() as page:
        draw_face(page, label, Box(10, 10, *box), "http://stash.local:5000")

        assert min(page.told[fact] for fact in (label.size, label.fibre, label.place)) >= least_pt


def test_a_share_stays_with_its_fibre():
    """"3 %" at the end of a line would be read of the fibre before it."""
    label = Label(code="ENVW4B", kind=LabelKind.CUT, name="Soot cotton twill",
                  size="1.90 m x 146 cm", fibre="97 % cotton, 3 % elastane", place="Loft shelf 2")
    with Read() as page:
        draw_face(page, label, Box(10, 10, 63.5, 33.9), None)

        assert not any(words.endswith("%") for words in page.told)


def fitted(canvas, text, width_mm=30.0, lines=3):
    """The words fitted into a box of 13 to 4.5 point."""
    return fit(printable(text), width_mm, lines, SIZES, lambda line: canvas.width_mm(line, 1.0))


def test_short_words_get_the_largest_size(canvas):
    """Short words get the largest size."""
    assert fitted(canvas, "Cotton").size_pt == SIZES[0]


def test_a_name_wraps_at_its_spaces(canvas):
    """A name wraps at its spaces."""
    assert fitted(canvas, "Washed linen, harbour blue").lines == ("Washed linen,", "harbour blue")


def test_a_very_long_word_breaks_rather_than_overflow(canvas):
    """A very long word breaks rather than overflow."""
    word = "Donaudampfschifffahrtsgesellschaftskapitänsuniform"
    done = fitted(canvas, word)

    assert "".join(done.lines) == word
    assert done.size_pt > SIZES[1]


def test_what_cannot_fit_ends_in_an_ellipsis(canvas):
    """What cannot fit ends in an ellipsis."""
    assert fitted(canvas, "sea " * 400).lines[-1].endswith("…")


@pytest.mark.parametrize(
    "text",
    ["льняная ткань синяя в мелкий рубчик", "麻布ネイビー藍染めの生地とても長い名前の布地",
     "कपास का नीला कपड़ा बहुत लंबा नाम", "قماش كتان أزرق طويل الاسم جدا", "ผ้าลินินสีน้ำเงินเข้มมาก",
     "בד פשתן כחול כהה מאוד", "Λινό ύφασμα σκούρο μπλε", "아마포 남색 원단", "🧵🧶 thread & yarn"],
)
def test_every_script_fits_and_loses_nothing(canvas, text):
    """Every script fits and loses nothing."""
    done = fitted(canvas, text)

    assert all(canvas.width_mm(line, done.size_pt) <= 30.01 for line in done.lines)
    assert "".join(done.lines).replace(" ", "") == printable(text).replace(" ", "")


@given(st.text(max_size=120), st.floats(5, 80), st.integers(1, 4))
def test_no_line_is_ever_wider_than_its_box(canvas, text, width_mm, lines):
    """No line is ever wider than its box."""
    done = fitted(canvas, text, width_mm, lines)

    assert len(done.lines) <= lines
    assert all(canvas.width_mm(line, done.size_pt) <= width_mm + 0.01 for line in done.lines)


def test_marks_stay_with_their_letter():
    """Marks stay with their letter."""
    assert clusters("e\u0301a") == ["e\u0301", "a"]
    assert clusters("कि") == ["कि"]


def test_a_character_that_no_font_has_becomes_an_open_box():
    """A character that no font has becomes an open box."""
    assert printable("tea 🫖\n\ttime") == "tea ▯ time"
