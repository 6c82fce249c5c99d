"""The first part of the language reference: what can be said in words, before the tables."""

HEAD = """\
# The language

<!-- Written by `python -m hts.generate`; change hts/language/vocabulary or hts/generate. -->

A specification says how welds are preheated, baked and heat treated. This is all of the language:
how a text is built, the values it may hold, and every entry with what it takes.

- [A whole job](#a-whole-job)
- [Lines, entries and blocks](#lines-entries-and-blocks)
- [Values](#values)
- [Units](#units)
- [Names, `use` and `like`](#names-use-and-like)
- [Weld lists](#weld-lists)
- [Formulas and conditions](#formulas-and-conditions)
- [Limits of a procedure](#limits-of-a-procedure)
- [Demands of a procedure](#demands-of-a-procedure)
- [Words for sides and places](#words-for-sides-and-places)
- [What silence means](#what-silence-means)
- [Glossary](#glossary)
- [Books, grades and other names](#books-grades-and-other-names)
- [Entries](#entries)
- [What documents ask for](#what-documents-ask-for)
- [Logs and the files beside them](#logs-and-the-files-beside-them)
- [Limits of size](#limits-of-size)

"""

INTRO = """\
## Lines, entries and blocks

A file is UTF-8 text. An **entry** is a line: the words it begins with, then values, then clauses.
A **clause** is a value with words before it that say which one it is, as `at most 200 degC/h`. A
**flag** is words alone. Clauses and flags may come in any order; commas between them are optional.
An entry may have a **block**: further entries between `{` and `}`.

What follows `#` up to the end of the line is a comment. An entry continues on the next line when
its line ends with a comma or inside round brackets. Blank lines and the number of blanks mean
nothing. Every file begins with the version of the language.

```hts
spec 1

# One entry with a block, one without.
recorder R1 {
  channels  12 type K range 0 .. 1200 degC   # two clauses
  interval  60 s
  error     +/- 1.5 degC
}
use "library/standing-orders.hts"
```

## Values

| value | written | remarks |
|---|---|---|
| quantity | `25.4 mm`, `1 1/2 in`, `2 h 30 min` | always with a unit; no decimal comma |
| | | zero or less only where it can exist |
| temperature | `705 degC`, `1300 degF` | a place on the thermometer; also `°C`, `°F` |
| temperature difference | `25 K`, `25 degC`, `45 degF` | `45 degF` is 25 K, never 7 degC |
| range | `690 .. 720 degC` | the smaller value first; both ends belong to it |
| tolerance | `705 +/- 15 degC`, `+/- 1.5 degC` | `±` is accepted, too; `760 + 10` is refused |
| width | `160 mm each side`, `320 mm total`, `6 t each side` | says whether each side or in total |
| multiple | `6 t` | of the governing thickness |
| distance from the weld | `42 mm downstream` | along the pipe, and to which side |
| clock position | `12:00`, `6:15` | round the pipe, clockwise in the view the joint states |
| date | `2026-11-20` | year, month, day |
| number | `5`, `1 1/2`, `0.5` | without a unit, kept exactly as written |
| whole number | `12` | |
| size or class | `12`, `1 1/2`, `40S`, `5A` | as printed |
| name | `W12`, `header-pipe`, `T1S` | letters, digits, hyphens, dots; no quotes |
| text | `"Bore drained and vented"` | in double quotes; `\\"` and `\\\\` stand for `"` and `\\` |
| choice | `girth butt` | one of the words listed, without quotes |
| address | `W12/thermocouples/T5` | of a thing, as findings print it |
| `by rule` | `soak band by rule` | the books and procedures in force give the value |
| formula | `2.5 min/mm * t` | in procedures only |
| condition | `t > 60 mm and p_number in (1, 3)` | after `when` |

A value that is stated is checked against the rules; one that is `by rule` is taken from them. The
digits of a value are kept: it is compared exactly with its limit.

Text with control characters, or with characters that change the writing direction, is reported.
"""

NAMES = """\
## Names, `use` and `like`

Everything is declared once under a name and referred to by that name: materials, fillers, joints,
cycles, controllers, recorders, power sources and procedures in the whole file, zones and
thermocouples within their joint. Two things of one kind in one file cannot share a name.

`use "library/standing-orders.hts"` makes the names of another file known. The path is relative to
the file that says it and stays inside the repository; two files cannot use each other. A name of
the file itself comes before the same name of a used file.

A joint begun `like` another has everything the other has, except what it states itself. Blocks
are merged; a zone or thermocouple of the same name takes the place of the other;
`channel offset` moves all channels. What the other joint states need not be stated again; what does
not hold here is left out with `without support`, `without zone left` or `without T9`.

```hts
spec 1

joint W12 {
  kind  girth butt
  wall  25.4 mm measured
}
joint W13, W14 like W12 {
  wall  24.8 mm measured
}
```

## Weld lists

Hundreds of welds stand in a spreadsheet. `weld list` makes a joint of each row of one that was
saved as CSV (UTF-8), over a typical joint: what the row says counts, the rest is the typical's. A
column leads to an entry of the joint by its words, and its cells are read as that entry is.
Nothing is guessed: the unit stands in the head in square brackets, in the list (`in mm`) or in
every cell; decimal commas have their word; every column is named, with `not used` where nobody
reads it; the number of rows is stated. `TBD`, `?` and formulas are findings. A blank cell says
nothing, unless it is `needed`.

```hts
spec 1

weld list line-welds from "weld-list.csv" {
  weld    in "Weld no."
  like    in "Typical"
  rows    312
  only    "PWHT" is "yes"
  column  "Line" line
  column  "Size" pipe NPS
  column  "Sch" pipe schedule
  column  "WT [mm]" wall measured needed
  column  "Remarks" not used
}
joint W117 in line-welds {
  wall  24.2 mm measured
}
preheat each of line-welds {
  at least   150 degC
  interpass  at most 315 degC
}
```

Typical joints stand in a file that is used: there they are patterns, and no weld of the job.
`joint W117 in line-welds` is written over its row. `each of line-welds`, or `each of line-welds
like p22-butt`, names all joints of the list, or those of one typical, wherever joints are named
one by one; they are never heated `together`. A table has at most 5 MB, 5,000 rows, 100 columns and
1,000 letters in a cell. Findings stand at row and column.

## Waivers

A rule or limit is set aside for one thing with `waive`, its reason, who decided it, and the day it
ends. A waiver that nothing needs, or that has run out, is itself reported.
"""

FORMULAS = """\
## Formulas and conditions

A formula is made of quantities, numbers and facts with `+`, `-`, `*`, `/`, `^` and brackets.
Units are checked before anything is computed, and computing is exact. `6 t` is short for `6 * t`.
`1 h per in of t` is an hour for each inch, and `400 degF/h per in of t` a rate that each inch
makes slower, as codes print them. Two temperatures can be subtracted, which gives a difference,
but not added.

A condition compares with `=`, `!=`, `<`, `<=`, `>`, `>=` and `in (…)`, or asks whether a fact
`is known`; conditions are joined with `and`, `or`, `not` and brackets. To the right of `=` and in
`in (…)` a word stands for itself: `p_number in (1, 3, 5A)`.
"""

LIMITS = """\
## Limits of a procedure

In a `procedure` each of these quantities can be limited, as often as needed, each time under a
condition of its own. A width in a formula says `each side` or `total`. Every line may end with
`with` and an option of a book, so that it counts only where a job makes use of it, `when` and a
condition, `because` and a reason in quotes, and `replaces` with the row of a practice book it
stands in for. Rows of a book that renders a standard cannot be replaced.

All lines whose conditions hold count, and the strictest governs: a line without a condition is the
base, and further lines tighten it. `hts check` on a procedure reports numbers left out between two
lines, lines that hold together with different values, lines that never count, and values that no
job could meet.
"""

DOCUMENTS = """\
## What documents ask for

Every field of a written procedure, of the instruction for one joint, of a table of setpoints and
of a checklist before heat, and the entry that says it. *Text* marks free text. A path names the
entries from the outermost on; `= …` is the choice to make there.
"""
