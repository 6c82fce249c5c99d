"""Facts about what codes and papers say, and where they differ; see `kept_facts.py`."""

from __future__ import annotations

from tests.checking.rules.fact import Fact

_PURPOSE = "  purpose             stress relief"

WHERE_PAPERS_DIFFER = (
    Fact(
        "a rate of 600 degF/h is 333 degC/h, for it is a difference (NIST SP 811)",
        "L204",
        refused=(("715 degC   at most 200 degC/h", "715 degC   at most 315 degC"),),
    ),
    Fact("ASME B31.3 has no rate rule to 2012 and one from 2014 on", "L103 L204 L205"),
    Fact("thickness triggers differ from code to code", "L220 L221"),
    Fact("all treatments together temper the steel no more than its limit", "L229"),
    Fact("a longer hold at a lower temperature differs from code to code", "L201 L202 L222"),
    Fact("a heated band of a code may be narrower than that of local heating", "B102 B120"),
    Fact("a soak band is the weld and both sides, and not one of them", "B101 Q107"),
    Fact("60 ksi is printed as 414 and as 415 MPa", "P101"),
    Fact("how far 9Cr cools hangs on nickel and manganese of the filler", "L225 L218"),
    Fact("schedule 40 and standard wall differ from NPS 12 on (ASME B36.10M)", "J205 J101"),
    Fact("limits of error are in percent of the Celsius value (ASTM E230)", "Y107 Y108"),
    Fact(
        "a guard band is agreed upon and never silent (ILAC-G8)",
        "Y118 R111",
        refused=((_PURPOSE, f"{_PURPOSE}\n  guard band some"),),
    ),
    Fact("hours by the inch bake too little out of heavy walls", "P112"),
    Fact("a procedure may tighten a code and not loosen or replace it", "L217 L223 R106"),
    Fact("an amendment is one of the revision that is in force", "R115"),
    Fact(
        "rows of a procedure leave no gap, do not overlap, and can be met",
        "R101 R102 R103 R104 R105 R118 R119 R120 R126 R127 L219",
    ),
    Fact("the mean of the hold has its range inside that of the hold", "Y125"),
    Fact("certificates of persons and surveys of furnaces hold on the day", "D115 E110"),
    Fact("a furnace is even enough for the hold", "Y127"),
    Fact("a treatment is held where its purpose wants it", "Y124"),
    Fact("an intermediate treatment is followed by the final one", "Y126"),
    Fact("monitors of inner edges sit nearer to the weld than those of outer ones", "Z141"),
    Fact("each run of a weld cools as fast as is asked", "P128"),
    Fact("a joint has as many heat treatments as its metal needs", "L231"),
    Fact("the places round the pipe that a book names have a thermocouple", "Z142"),
    Fact("a hot step has a rate, from the job or from what governs it", "Y128 Y134"),
    Fact("a treated weld cools in still air or insulation, or in its furnace", "Y132 Y133"),
    Fact("the distance of the two wires on the metal is stated", "C134"),
    Fact("what records or controls preheat can read it", "C135"),
    Fact("what monitors preheat sits in the preheated metal, clear of the arc", "P124"),
    Fact("every hold, witness and review point names who is there", "K106"),
    Fact(
        "a procedure worked out for every metal and wall asks for what the trade could mean, and "
        "for no less where more is joined",
        "R116 R117 R124 R125",
    ),
    Fact(
        "the sides of a weld are called as its kind has them, and fit",
        "J212 J213",
    ),
    Fact("a step has a greatest rate, and a hold is not many times what is asked", "Y134 Y135"),
    Fact("a figure is written as one writes it, in the unit of its fellows", "Q204 Q205"),
    Fact("each crew has a name of its own", "K115"),
    Fact("no weld and no tag is taken for another", "J214 W112 W123"),
    Fact("each place has one greatest hardness", "K112"),
    Fact("what the chart shows is named once", "K114"),
    Fact("a limit is worked out from what it is a matter of, and the weld has it", "R122 R123"),
    Fact("a procedure is nowhere looser than the books it was written to", "R121"),
    Fact(
        "a weld still to be made has the preheat that is asked for, and its method",
        "P134 P129 P135",
    ),
    Fact("what measures preheat says where; what is recorded is measured", "P130 P131"),
    Fact("a joint kept hot when welding stops is kept at a temperature", "P132"),
    Fact("preheat is watched on both sides of the weld", "P133"),
    Fact("the welding line names process, layers and, where it counts, the filler", "J209"),
    Fact("a thick wall takes more than one layer", "J210"),
    Fact("a weld round a pipe says its size", "J211"),
    Fact("what names another paper is no placeholder", "D116"),
    Fact("what sits in the row of an edge monitors that edge", "Z149"),
    Fact("every governing book has something to say about the job", "L232"),
    Fact("hardness is measured on the weld, at a number of places", "K111"),
    Fact("a supply says its kind, and a circuit of it gives no more than the supply", "E112 E114"),
    Fact(
        "a ring, a spot, a whole part or several heats is what bands and zones make of it", "B124"
    ),
    Fact("a pipe with places by the clock lies or stands", "Z150"),
    Fact("a weld of two parts states both", "J216"),
    Fact("the preheat of a test piece is near that of the weld", "J203 J215"),
    Fact("a probe reads at the preheat", "P140"),
    Fact("a certificate is older than the paper that names it", "C139"),
    Fact("what a weld cools in from the end of control is said", "Y136"),
    Fact("a step within the range of control has a rate", "Y128 Y137"),
    Fact("a support that is checked is stated", "K116"),
    Fact("each hold has an alarm that comes in time", "Y129"),
    Fact(
        "what a procedure requires, forbids or prefers of any entry is held against the job",
        "R111 R112 R113 R114",
    ),
    Fact("a fact that a limit hangs on is asked for, and not assumed", "L218 M101 M202"),
)
