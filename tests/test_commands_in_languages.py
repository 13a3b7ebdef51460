"""What commands say of real work, at a French and a German terminal: no English is left."""

from __future__ import annotations

import json
import re
import shlex

import pytest
from click.testing import CliRunner, Result

from web.command import main

TERMINALS = {"fr": "fr_FR.UTF-8", "de": "de_DE.UTF-8"}
WORK = r"""
buttons --front 60cm --diameter 15mm
thread --seam 3m
place add "X1"
person add "X2" --measure hip=98cm --measure waist=74cm --measure inside_leg=76cm
person adjust "X2" trousers side=0.5cm
person show "X2"
cut add "X3" "2.6m x 140cm" --fibres "100% linen" --mass 180 --place "X1"
cut off {added} 20cm
cut show {added}
cut wash {added}
bin add zip "X4" 2 --size 60cm --shortenable
bin list
find X3
find "X9 X9"
like --words X3
draft tote-bag
draft trousers --for "X2"
draft trousers --list-options
need tote-bag --width 140cm --seconds 0.5
fit tote-bag --cut {added} --seconds 0.5
plan add X5 --garment tote-bag --garment trousers@"X2"
plan show X5
plan hold X5 --seconds 0.5
plan show X5
plan release X5
plan choose tote-bag --seconds 0.5
shop tote-bag --widths 90cm,150cm --seconds 0.5
far tote-bag --grow width --cut {added} --seconds 0.3
pattern alter straight-skirt "move dart front waist to side 9cm" --for "X2"
pattern table 114cm=2.5m 140cm=2.1m
plan hold X5 --seconds 0.5
plan made X5
cut wash {added} "2.345m x 137cm"
cut weigh {added} --grams 412
cut gone {added} --given
cut list --gone
report
report --by fibre
settings show
undo --list
undo
record check
cut show AAAAAA
cut take
"""
# Words that no French or German sentence has. Words to be typed (commands, options) stay.
ENGLISH = re.compile(
    r"\b(the|and|of|with|from|this|is|are|cloth|length|width|save|cut|by|not|which|what|it|"
    r"fits?|washed|pieces?|woven|open|buttons?|thread|front|back|sleeve|held|needed|given|"
    r"photograph|skirt|seam|sewing|linen|flax)\b", re.IGNORECASE)
# A decimal point, a date that begins with its year.
ENGLISH_NUMBERS = re.compile(
    r"(?<![\d.])\d+\.\d+(?![\d.])|\b\d{4}-\d\d(-\d\d)?\b")
TYPED = re.compile(
    r"lengthwise [a-z]+( [a-z]+)*|--[\w-]+|“[^”]*”|„[^“]*“|«[^»]*»|'[^']*'|"
    r"^  [\w-]+\s?:|; [\w, .-]+ \[[\w.-]*\]$|^\w+ = .*|^\w+: .*$|^.*\[OPTION(?:S|EN)\].*$",
    re.MULTILINE)


def run(room, language: str, line: str) -> Result:
    """One command at a terminal of this language."""
    env = {"LC_ALL": TERMINALS[language], "LANGUAGE": None}
    return CliRunner(env=env).invoke(main, ["--data", str(room), *shlex.split(line)])


@pytest.mark.parametrize("language", TERMINALS)
def test_no_english_is_left_in_what_commands_say(tmp_path, kernels, language):
    """A stash whose names are of no language, drafted for, held, shopped for and undone."""
    added, left = "", []
    for line in WORK.strip().splitlines():
        done = run(tmp_path, language, line.format(added=added))
        if line.startswith("cut add"):
            added = done.output[:6]
        left += [f"{line}: {said}" for said in done.output.splitlines()
                 if ENGLISH.search(mine := TYPED.sub("", said)) or ENGLISH_NUMBERS.search(mine)]

    assert not left, "\n".join(left)


@pytest.mark.parametrize("language", TERMINALS)
def test_a_refusal_for_a_program_keeps_its_fact(tmp_path, language):
    """The sentence is the reader's, the kind and the values are everybody's."""
    refused = json.loads(run(tmp_path, language, "cut show K7MN4P --json").stdout)

    assert refused["fact"]["kind"]
    assert not ENGLISH.search(refused["error"])


@pytest.mark.parametrize(("language", "usage"), [
    ("fr", "cut add [OPTIONS] NOM DIMENSIONS"), ("de", "cut add [OPTIONEN] NAME GRÖSSE")])
def test_what_is_to_be_typed_is_called_so_in_the_readers_language(tmp_path, language, usage):
    """In the usage, and in the sentence of what is missing."""
    refused = run(tmp_path, language, 'cut add "X1"').output

    assert usage in refused
    assert usage.split()[-1] in refused.splitlines()[-1]


@pytest.mark.parametrize("kind", ["cut", "bin"])
def test_given_away_and_thrown_away_is_a_question(tmp_path, kind):
    """Two ends of one thing are never guessed at."""
    refused = run(tmp_path, "fr", f"{kind} gone K7MN4P --given --thrown")

    assert refused.exit_code
    assert "--given et --thrown" in refused.output
