# SPDX-License-Identifier: GPL-3.0-or-later
"""Whether this tool notices what it should, and lets pass what the list of changes names."""
import json
import os
import re
import stat
import tempfile
import unittest
from commands import CommandError, read_commands
from compare import compare_csv, compare_runs, compare_stream
from numbers_in_text import keys, tokens
from outcome import CHANGED, DIFFERENT, IDENTICAL, LISTED, REORDERED, SHORTER, WORDS
from rules import RuleError, Rules
from run import FOLDER_OF_COMMANDS, Side, run_command

HERE = os.path.dirname(os.path.abspath(__file__))
FEWEST_COMMANDS = 250
PROSE = "json-prose hint cautions.*.text\n"
ANSWER = {
    "verdict": "tight",
    "hint": "use 3 mm or less, at 12000 rpm",
    "inputs": [{"name": "depth", "text": "0.4 mm"}],
    "limits": [{"name": "softening", "room": 60.0, "use": 0.69},
               {"name": "runout", "room": 8.333e-6, "use": 1.2}],
    "cautions": [{"name": "chips", "text": "Chips of 0.5 mm fly."}],
}
SCREEN = """acrylic/cast, 0.8 mm carbide tool, 2 flutes
TIGHT  softening uses 69 % of its room; chance that something goes over: 19 %;
  advice: runout 120 %
 softening         41.3 K of 60 K          69 % ######===|=== tight 18 %
 runout             10 um of 8.333 um     120 % #########|##= tight 63 % advice
"""
DRAWING = """<svg xmlns="http://www.w3.org/2000/svg" width="84">
<path d="M1 2L3 4.5"><title>tool_break</title></path>
<text x="26" y="30">At 5300 rpm: clear</text></svg>
"""
PAGE = """<!DOCTYPE html>
<html><head><style>p{margin:4px}</style></head><body>
<p class="told">Over a gap of 30 um the glue sets in 26 s.</p>
""" + DRAWING + "</body></html>\n"


def rules(text=""):
    return Rules.read(text).of_command("a command")


def edited(**changes):
    """The answer with some of its values changed, as a text."""
    return json.dumps(dict(ANSWER, **changes), indent=2)


class JsonTest(unittest.TestCase):
    """Answers in JSON."""

    def level(self, new, listed=PROSE):
        return compare_stream(edited(), new, rules(listed)).level

    def test_the_same(self):
        self.assertEqual(self.level(edited()), IDENTICAL)

    def test_changed_number(self):
        limits = [dict(ANSWER["limits"][0], use=0.6900000001), ANSWER["limits"][1]]
        self.assertEqual(self.level(edited(limits=limits)), DIFFERENT)

    def test_number_written_otherwise(self):
        self.assertEqual(self.level(edited().replace("60.0", "60")), DIFFERENT)
        self.assertEqual(self.level(edited().replace("8.333e-06", "0.000008333")), DIFFERENT)

    def test_lost_limit(self):
        outcome = compare_stream(edited(), edited(limits=ANSWER["limits"][:1]), rules(PROSE))
        self.assertEqual(outcome.level, DIFFERENT)
        self.assertIn("-runout", " ".join(outcome.notes))

    def test_limits_in_another_order(self):
        self.assertEqual(self.level(edited(limits=ANSWER["limits"][::-1])), DIFFERENT)

    def test_key_rename(self):
        new = edited().replace('"room"', '"capacity"')
        self.assertEqual(self.level(new), DIFFERENT)
        self.assertEqual(self.level(new, PROSE + "json-key room capacity\n"), LISTED)
        self.assertEqual(self.level(new, PROSE + "json-key limits.*.room capacity\n"), LISTED)
        self.assertEqual(self.level(new, PROSE + "json-key inputs.*.room capacity\n"), DIFFERENT)

    def test_rename_and_number(self):
        new = edited().replace('"room": 60.0', '"capacity": 61.0').replace('"room"', '"capacity"')
        self.assertEqual(self.level(new, PROSE + "json-key room capacity\n"), DIFFERENT)

    def test_rename_onto_a_key_that_is_there(self):
        new = edited().replace('"room"', '"use"')
        self.assertEqual(self.level(new, PROSE + "json-key room use\n"), DIFFERENT)

    def test_added_and_removed_keys(self):
        new = edited(unit="mm")
        self.assertEqual(self.level(new), DIFFERENT)
        self.assertEqual(self.level(new, PROSE + "json-added unit -- asked for\n"), LISTED)
        gone = edited()[:edited().index(',\n  "cautions"')] + "\n}"
        self.assertEqual(self.level(gone), DIFFERENT)
        self.assertEqual(self.level(gone, PROSE + "json-removed cautions -- moved\n"), LISTED)

    def test_order_of_keys(self):
        new = json.dumps(dict(reversed(ANSWER.items())), indent=2)
        self.assertEqual(self.level(new), DIFFERENT)
        self.assertEqual(self.level(new, PROSE + "json-order * -- sorted\n"), LISTED)

    def test_prose(self):
        reworded = edited(hint="At 12000 rpm, 3 mm is the most.")
        self.assertEqual(self.level(reworded), WORDS)
        self.assertEqual(self.level(reworded, ""), DIFFERENT)
        self.assertEqual(self.level(edited(hint="use 3 um or less, at 12000 rpm")), DIFFERENT)
        self.assertEqual(self.level(edited(hint="use 3 mm or less")), DIFFERENT)
        self.assertEqual(self.level(edited(hint="use 3 mm or less", ),
                                    PROSE + "drop-text old ', at 12000 rpm' -- known\n"), LISTED)

    def test_words_that_are_no_prose(self):
        inputs = [{"name": "depth", "text": "0.5 mm"}]
        self.assertEqual(self.level(edited(inputs=inputs)), DIFFERENT)
        self.assertEqual(self.level(edited(verdict="clear")), DIFFERENT)
        self.assertEqual(self.level(edited(verdict="close"), PROSE + "json-word tight close\n"),
                         LISTED)

    def test_null_and_cut_off(self):
        self.assertEqual(self.level(edited(verdict=None)), DIFFERENT)
        self.assertEqual(self.level(edited()[:-3]), DIFFERENT)
        self.assertEqual(self.level(""), DIFFERENT)


class TextTest(unittest.TestCase):
    """Screens, drawings, pages and tables."""

    def level(self, old, new, listed=""):
        return compare_stream(old, new, rules(listed)).level

    def test_changed_number(self):
        for old, new in (("41.3 K", "41.4 K"), ("60 K", "60 degF"), ("TIGHT", "CLEAR"),
                         ("tight 18", "clear 18"), ("######===|", "######==.|")):
            self.assertEqual(self.level(SCREEN, SCREEN.replace(old, new)), DIFFERENT, new)

    def test_lost_limit(self):
        lost = "".join(SCREEN.splitlines(keepends=True)[:-1])
        self.assertEqual(self.level(SCREEN, lost), DIFFERENT)

    def test_other_words(self):
        new = SCREEN.replace("uses 69 % of its room", "is at 69 % of its capacity")
        self.assertEqual(self.level(SCREEN, new), WORDS)
        self.assertEqual(self.level(SCREEN, new, "text-word 'uses 69 %' 'is at 69 %'\n"
                                    "text-word room capacity\n"), LISTED)
        self.assertEqual(self.level(SCREEN, SCREEN.replace("\n  advice", " advice")), WORDS)

    def test_another_order(self):
        self.assertEqual(self.level("1 mm, then 2 mm", "2 mm after 1 mm"), REORDERED)
        self.assertEqual(self.level("1 mm, then 2 mm", "2 mm after 1 mm and 1 mm"), DIFFERENT)

    def test_dropped(self):
        old, new = SCREEN + "held by 3 hands\n", SCREEN
        self.assertEqual(self.level(old, new), DIFFERENT)
        self.assertEqual(self.level(old, new, "drop-line old '^held by' -- no use\n"), LISTED)
        self.assertEqual(self.level(old, new, "drop-line new '^held by' -- no use\n"), DIFFERENT)
        self.assertEqual(self.level(old, new, "drop-text both 'held by . hands' -- none\n"), LISTED)
        scoped = "drop-line old '^held by' for 'another command' -- no use\n"
        self.assertEqual(self.level(old, new, scoped), DIFFERENT)

    def test_drawing(self):
        for old, new in (("4.5", "4.6"), ('x="26"', 'x="27"'), ("5300 rpm", "5400 rpm"),
                         ("<title>", "<desc>")):
            self.assertEqual(self.level(DRAWING, DRAWING.replace(old, new)), DIFFERENT, new)
        self.assertEqual(self.level(DRAWING, DRAWING.replace("At", "With")), WORDS)
        self.assertEqual(self.level(DRAWING, DRAWING.replace("tool_break", "tool_breakage"),
                                    "word tool_break tool_breakage\n"), LISTED)

    def test_labels_of_other_words(self):
        moved = DRAWING.replace('x="26"', 'x="22"')
        self.assertEqual(self.level(DRAWING, moved), DIFFERENT)
        self.assertEqual(self.level(DRAWING, moved.replace("At", "Running at")), WORDS)
        self.assertEqual(self.level(DRAWING, moved.replace("At 5300", "Running at 5400")),
                         DIFFERENT)
        self.assertEqual(self.level(DRAWING, moved.replace("At", "By").replace("4.5", "4.6")),
                         DIFFERENT)
        marked = DRAWING.replace("</svg>", '<text x="7">500</text></svg>')
        reworded = marked.replace("At", "Running at").replace('x="26"', 'x="22"')
        self.assertEqual(self.level(marked, reworded), WORDS)
        self.assertEqual(self.level(marked, reworded.replace('x="7"', 'x="8"')), DIFFERENT)

    def test_screens_that_show_what_fits(self):
        shorter = "".join(SCREEN.splitlines(keepends=True)[:-1]) + "2 more with --rows\n"
        fits = "fits 'a command' '\\d+ more' -- as many lines as fit\n"
        self.assertEqual(self.level(SCREEN, shorter), DIFFERENT)
        self.assertEqual(self.level(SCREEN, shorter, fits), DIFFERENT)
        longer = SCREEN * 2
        self.assertEqual(self.level(longer, SCREEN + shorter, fits), SHORTER)
        self.assertEqual(self.level(SCREEN + shorter, longer, fits), SHORTER)
        self.assertEqual(self.level(longer, SCREEN + shorter.replace("41.3", "41.4"), fits),
                         DIFFERENT)
        self.assertEqual(self.level(longer, SCREEN + shorter, fits.replace("a c", "no c")),
                         DIFFERENT)

    def test_page(self):
        for old, new in (("30 um", "31 um"), ("4.5", "4.6"), ("4px", "5px"), ("26 s", "26 min")):
            self.assertEqual(self.level(PAGE, PAGE.replace(old, new)), DIFFERENT, new)
        self.assertEqual(self.level(PAGE, PAGE.replace("the glue sets", "glue cures")), WORDS)
        self.assertEqual(self.level(PAGE, PAGE.replace('"told"', '"note"')), WORDS)
        self.assertEqual(self.level(PAGE, PAGE.replace(DRAWING, "")), DIFFERENT)

    def test_table(self):
        old = "depth [mm],verdict,edge_chip\n1,tight,0.5\n"
        self.assertEqual(compare_csv(old, old.replace("0.5", "0.50"), rules()).level, DIFFERENT)
        renamed = old.replace("edge_chip", "edge_chipping").replace("tight", "close")
        self.assertEqual(compare_csv(old, renamed, rules()).level, DIFFERENT)
        listed = rules("word edge_chip edge_chipping\njson-word tight close\n")
        self.assertEqual(compare_csv(old, renamed, listed).level, LISTED)
        self.assertEqual(compare_csv(old, old + "2,tight,0.5\n", rules()).level, DIFFERENT)

    def test_numbers(self):
        for text, wanted in (
                ("69 % of its room: (43 to 98.9).", ["69 %", "43", "98.9"]),
                ("12000rpm, 0.8mm", ["12000 rpm", "0.8 mm"]),
                ("3500\n  mm/min in one of 6 passes", ["3500 mm/min", "6"]),
                ("0.4 in the slot, 0.4 in deep", ["0.4", "0.4 in"]),
                ("6061-T6 with em-0.8-2", ["6061-T6", "em-0.8-2"]),
                ("a 2-flute tool, ±50 um, -3 K", ["2", "50 um", "-3 K"]),
                ("1.2e-05 and 10.", ["1.2e-05", "10"])):
            self.assertEqual(keys(tokens(text)), wanted, text)


FAKE = """#!/bin/sh
# A program that answers, says where it stands, writes a file and ends as its first word says.
case $* in *file*) printf '%s' "{file}" >made.txt ;; esac
echo "{answer} at $PWD of $COOLBITE_TABLE_PATH"
exit {status}
"""


class RunTest(unittest.TestCase):
    """Two programs from end to end."""

    def setUp(self):
        self.work = tempfile.TemporaryDirectory(prefix="same-as-")
        self.addCleanup(self.work.cleanup)
        self.old = self.side("old", "3 mm", "5 K", 1)

    def side(self, name, answer, file, status):
        """A made-up program as one side."""
        root = os.path.join(os.path.realpath(self.work.name), name)
        os.makedirs(os.path.join(root, FOLDER_OF_COMMANDS), exist_ok=True)
        program = os.path.join(root, "program")
        text = FAKE.replace("{answer}", answer).replace("{file}", file)
        with open(program, "w", encoding="utf-8") as out:
            out.write(text.replace("{status}", str(status)))
        os.chmod(program, stat.S_IRWXU)
        return Side(name, program, root, [(root, "<side>")], {})

    def level(self, new, command="file ;; again", listed=""):
        parsed = read_commands(command)[0]
        listed = Rules.read(listed).of_command(command)
        old = run_command(self.old, parsed, listed)
        return compare_runs(old, run_command(new, parsed, listed), listed).level

    def test_the_same(self):
        self.assertEqual(self.level(self.side("new", "3 mm", "5 K", 1)), IDENTICAL)

    def test_what_is_noticed(self):
        for answer, file, status in (("4 mm", "5 K", 1), ("3 mm", "6 K", 1), ("3 mm", "5 K", 0)):
            self.assertEqual(self.level(self.side("new", answer, file, status)), DIFFERENT)

    def test_file_that_is_not_written(self):
        new = self.side("new", "3 mm", "5 K", 1)
        with open(new.program, encoding="utf-8") as text:
            silent = text.read().replace(">made.txt", ">/dev/null")
        with open(new.program, "w", encoding="utf-8") as out:
            out.write(silent)
        self.assertEqual(self.level(new), DIFFERENT)

    def test_wanted_change(self):
        new = self.side("new", "3 mm", "5 K", 64)
        self.assertEqual(self.level(new, listed="command file 64 -- refused now\n"), CHANGED)
        self.assertEqual(self.level(new, listed="command file 73 -- refused now\n"), DIFFERENT)
        self.assertEqual(self.level(new, listed="command other 64 -- refused now\n"), DIFFERENT)


class ListTest(unittest.TestCase):
    """Both lists."""

    def read(self, name):
        with open(os.path.join(HERE, "..", name), encoding="utf-8") as file:
            return file.read()

    def test_commands(self):
        commands = read_commands(self.read("same_as_commands.txt"))
        self.assertGreaterEqual(len(commands), FEWEST_COMMANDS)
        texts = "\n".join(command.text for command in commands) + "\n"
        for verb in "cut choose window job list show explain --help --version".split():
            self.assertTrue(re.search(r"^(\S+=\S+ )*%s\b" % re.escape(verb), texts, re.M)
                            or "\n" + verb + "\n" in texts, verb)
        for word in ("--format text", "--format json", "--format csv", "--format svg",
                     "--format html", "--units metric", "--units inch", "--against", "--after",
                     "--set", "--sheet", "--output", "--took"):
            self.assertIn(word, texts)
        for job in ("cover-lens", "sensor-window", "bracket"):
            for form in ("text", "json", "html"):
                for units in ("metric", "inch"):
                    self.assertIn("job %s.ini --format %s --units %s\n" % (job, form, units), texts)

    def test_changes(self):
        Rules.read(self.read("same_as_changes.txt"))

    def test_lines_that_are_wrong(self):
        for text in ("cut {NOT_DEFINED}", "cut\ncut", "cut 'open", "cut ;; "):
            with self.assertRaises(CommandError, msg=text):
                read_commands(text)
        for text in ("json-kee a b", "json-key a", "json-added a", "drop-line left a -- b",
                     "drop-text old '(' -- b", "fits a", "command a b -- c", "word 'a b"):
            with self.assertRaises(RuleError, msg=text):
                Rules.read(text)


def run_tests():
    """All of them; the exit status."""
    loader = unittest.TestLoader()
    suite = unittest.TestSuite(loader.loadTestsFromTestCase(case)
                               for case in (JsonTest, TextTest, RunTest, ListTest))
    done = unittest.TextTestRunner(verbosity=1).run(suite)
    return 0 if done.wasSuccessful() and done.testsRun > 0 else 1
