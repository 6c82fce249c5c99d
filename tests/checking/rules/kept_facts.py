"""Facts of the trade, and how each is kept: by rules, by what the language refuses, or on paper.

The facts are common practice without a source unless a standard is named. A fact that a text can
contradict has the codes that tell it; one that a text cannot even say otherwise has a text that is
refused; what only shows at the pipe is on the paper that goes there, in a module of
`hts.paper.packet`.
"""

from __future__ import annotations

from tests.checking.rules.fact import Fact
from tests.checking.rules.facts_of_papers import WHERE_PAPERS_DIFFER

_PURPOSE = "  purpose             stress relief"
_ATTACHED = "capacitor discharge legs apart 6 mm"
_ENERGY = "energy 100 J each leg apart"
_T3 = "T3   monitors soak edge      at 12:00"

HOW_MEASURED = (
    Fact(
        "each temperature-indicating crayon and each probe is for preheat only",
        "C122 P114",
        refused=((_PURPOSE, f"{_PURPOSE}\n  measured by temperature-indicating crayon"),),
    ),
    Fact(
        "post-weld heat treatment is measured by thermocouples (ASME B31.3 331.1.6)",
        "Z126 Z151",
        refused=((_PURPOSE, f"{_PURPOSE}\n  measured by contact probe at 76 mm"),),
    ),
    Fact("a crayon shows one temperature: it has to be the one asked for", "P105"),
    Fact(
        "a contact probe sits in the middle of the heat",
        "P113",
        refused=(("at 76 mm on", "placed anywhere at 76 mm on"),),
    ),
    Fact(
        "a contact probe lies under the blanket, in contact with the metal",
        "P113",
        refused=(("at 76 mm on", "kept in the pocket at 76 mm on"),),
    ),
    Fact("a contact probe is not used above 600 degF (316 degC)", "P108"),
    Fact("preheat is measured at the distance of ISO 13916", "P109"),
    Fact("a controlling thermocouple sits in the middle of its heaters", "Z102 Z103 Z159"),
    Fact(
        "it lies under the insulation, shielded from the heater",
        "C111",
        paper=("checks", "shielded from the heater"),
    ),
    Fact("one beside the joint may monitor, and does not control", "Z104 Z106"),
    Fact("a thermocouple either controls or monitors or is a spare", "Z105"),
    Fact("a monitor says what it monitors", refused=((_T3, "T3   monitors the pipe at 12:00"),)),
    Fact("top and bottom of a horizontal pipe are measured (AWS D10.10:2021)", "Z116"),
    Fact("the weld and the edges of the bands are monitored", "Z117 Z118 Z119 Z120 Z160"),
    Fact("a heavy section beside a thin one is monitored as well", "Z131 R111"),
    Fact("every zone has exactly one controlling thermocouple", "Z101"),
    Fact("thermocouples are as many as zones, size and procedure ask for", "Z128 Z129 R111"),
)

HOW_ATTACHED = (
    Fact(
        "wire is of type K or N, solid, about 20 AWG",
        "C121",
        refused=((" gauge 20 {", " gauge 20 wire plaited {"),),
    ),
    Fact("type and gauge of the wire bear the hold (ASTM E230)", "C104 C110"),
    Fact(
        "the insulation of the wires bears the hold; glass braid serves for one heat treatment",
        "C129 C141",
        refused=(("    colours ", "    wire insulation paper\n    colours "),),
    ),
    Fact("each leg is attached by itself", "C115", paper=("checks", "attached by itself")),
    Fact(
        "the wires touch nowhere but at the metal (AWS D10.10:2021)",
        "C115 C117",
        refused=((_ATTACHED, "twisted together legs apart 6 mm"),),
        paper=("checks", "touch nowhere but at the metal"),
    ),
    Fact(
        "the surface is filed or ground clean",
        refused=((_ENERGY, f"surface painted {_ENERGY}"),),
        paper=("checks", "dry and bright"),
    ),
    Fact(
        "about 1/4 in of wire is stripped, never more than 1/2 in",
        "C117",
        paper=("checks", "Bare wire no longer than"),
    ),
    Fact(
        "the positive leg is attached first",
        "C116",
        refused=((_ENERGY, f"first leg red {_ENERGY}"),),
    ),
    Fact(
        "legs are at most 6 mm apart (AWS D10.10, from memory), or 1/4 to 3/8 in by procedure",
        "C108",
    ),
    Fact(
        "the energy of the attachment unit is at most 125 J (ASME B31.1 127.4.9, from memory)",
        "C119",
    ),
    Fact(
        "the wires are bent flat afterwards, which tests the attachment",
        "C128",
        paper=("checks", "light pull"),
    ),
    Fact(
        "they are taped after that",
        "C128",
        refused=((_ENERGY, f"{_ENERGY} glued down"),),
        paper=("checks", "tied to the pipe"),
    ),
    Fact("mechanically fixed ones read too hot (AWS D10.10:2021)", "C109"),
    Fact(
        "leads run square to the turns of an induction coil",
        "C123",
        refused=(("    colours ", "    leads across\n    colours "),),
    ),
    Fact("extension cable is shielded against an induction coil", "C114"),
    Fact("a lead of thermocouple wire is at least 1 m long", "C127"),
    Fact(
        "spots are looked at after removal (ASME B31.3 330.1.3, from memory)",
        refused=(("cycle stress", "after heat W12 { thermocouple spots }\n\ncycle stress"),),
    ),
)

HOW_WIRED = (
    Fact("cable is of the type of the wire (IEC 60584-3)", "C102"),
    Fact("attachment and cable are stated", "C133"),
    Fact("wires and cable are joined one way round", "C140"),
    Fact("the warm end of the cable stays within its range (IEC 60584-3)", "C125"),
    Fact(
        "connectors are of the alloys of the wire",
        "C124",
        refused=(("length 20 m", "length 20 m connectors gold"),),
    ),
    Fact(
        "polarity is right at every connector",
        "C113",
        paper=("wiring", "at every connector and at the instrument"),
    ),
    Fact(
        "red is negative by ASTM E230, and was positive in withdrawn schemes",
        "C113",
        refused=(("IEC 60584-3\n", "JIS C1610\n"),),
        paper=("wiring", "withdrawn schemes"),
    ),
    Fact("swapped twice a pair reads wrong the right way round", paper=("wiring", "swapped twice")),
    Fact("inputs are set to the type attached (IEC 60584-1)", "C101"),
    Fact("tags are unique, and go with one channel each", "W112 Z110 Z111"),
    Fact(
        "labels match the places of the procedure",
        "R111 Z121 Z122",
        paper=("checks", "agrees with the table"),
    ),
    Fact("each tag is proved on its channel", paper=("placing", "Warmed")),
    Fact("controlling and monitoring inputs are limited by the equipment", "E101 E102"),
    Fact(
        "a spare sits beside what it stands in for, with a lead of its own",
        "Z107 Z108 Z109",
        paper=("checks", "led out to its end"),
    ),
    Fact("a spare takes over without interrupting the cycle", "Y119 Y111 Y146"),
    Fact("a broken thermocouple drives the controller to the safe side", "Y114 Y130"),
    Fact(
        "a recorder reads beyond the hold, finely and often enough",
        "C103 C107 R111 C126 C136 C137 C142 C146 Y145",
    ),
    Fact(
        "everything is in calibration, and its certificate can be found", "C105 C106 C118 C120 C130"
    ),
)

HOW_PLANNED = (
    Fact("every quantity has its unit", "Q101 Q102 Q103"),
    Fact("numbers of degF are not written in degC", "Q201 Q202"),
    Fact("low-hydrogen electrodes are dried hot and do not lie open for long", "M210 M211 M212"),
    Fact("a heavy section is thicker than its pipe and clear of the weld", "N113"),
    Fact("beside something heavy the band reaches farther", "N114"),
    Fact("a band that narrows still covers the soak band", "B121"),
    Fact("a test plate is of the metal and wall it stands for", "M209"),
    Fact("a part is longer than what is heated twice of it", "E111"),
    Fact("what the chart is to show is said", "K107 K113"),
    Fact("each list names a thing once", "D117"),
    Fact("a test has time between its earliest and its latest moment", "K108"),
    Fact("nobody watches for longer than people stay awake", "K109"),
    Fact("somebody is there for as long as a treatment takes", "K110"),
    Fact("the analysis, the heat and the condition are those of the metal", "M204 M205 M207 M208"),
    Fact("the filler suits a metal joined, and the process takes its form", "M206 M214"),
    Fact("wire and cable are of one class, and the lot is of the type attached", "C138 C143 C144"),
    Fact("a clock is set to a zone there is", "E120"),
    Fact("thermocouples come off after the insulation, from metal that can be touched", "K132"),
    Fact("what is released waits for the role that releases it", "K133"),
    Fact("a caution keeps people from harm", "K134"),
    Fact(
        "what is told to be done keeps weld and people from harm, and comes in time",
        "K143 K144 K145 K147",
    ),
    Fact("a report is of a test that is made, and an examination is a test", "K146"),
    Fact("a heater that fails is made up for by neighbours there are", "E122"),
    Fact("what is taken away needs no shield", "N132"),
    Fact("a job goes by one revision of a drawing", "D126"),
    Fact("a weld of a list is like the others of its line", "J233"),
    Fact("what is examined before the heat is accepted before it", "K135"),
    Fact("somebody reads the temperatures while the weld is held", "K136"),
    Fact("supports are freed by who answers for them", "K137"),
    Fact("the side that words call the slower is the thicker", "K138"),
    Fact("insulation stays on as long as the cooling is controlled", "Y147"),
    Fact("a hanger stands outside the insulation", "N131"),
    Fact("insulation in the bore is thick enough to hold the heat", "B128"),
    Fact("leads reach out of the insulation", "C145"),
    Fact("what a procedure demands of filler and hardness is what its service bears", "R134"),
    Fact("top and bottom are asked for on pipe that lies", "R135"),
    Fact("a procedure is for the walls its title speaks of", "R136"),
    Fact("a part heated in turns is heated twice where they meet (ASME VIII-1 UW-40)", "E121"),
    Fact("a report is handed over after what it reports", "K139"),
    Fact("a standby that is tried is one the supply has", "K140"),
    Fact("records are kept for five years (ASME B31.3 346.3)", "K141"),
    Fact("what hydrogen may crack is tested when it has had the time to", "P148"),
    Fact("what lies on hot metal bears the hold", "B129"),
    Fact("a typical weld is what its name says", "J232"),
    Fact("a shutdown is called by the year of its work", "D125"),
    Fact("what makes a heat safe is checked before it", "K142"),
    Fact("what a procedure leaves to the job it does not set itself", "R137"),
    Fact("a formula of whole widths is one in total", "R138"),
    Fact("the welds of a list are numbered without a hole", "W127"),
    Fact("wall and cap are those of such a pipe", "J205 J206 J219"),
    Fact("no two thermocouples share a place", "Z137"),
    Fact("an edge is watched at the same clocks on both sides", "Z154"),
    Fact("places along a weld can be found with a tape", "Z143 Z144 Z145 Z148"),
    Fact("a weld that does not go round is heated and measured along all of it", "Z146 Z147"),
    Fact("what watches a neighbour sits at it, and near the weld", "N109 N120 N129"),
    Fact(
        "heaters, zones, circuits and supply fit each other",
        "E107 E108 E109 E113 E116 E117 E119 E123",
    ),
    Fact("a check is about what it says", "K101"),
    Fact("what the facts of a joint call for is checked before heat", "K102"),
    Fact(
        "checks name every joint that is heated, once, and go on after the heat",
        "K104 K105 K126 K129",
    ),
    Fact("a calibration ends after it begins; each has its own certificate", "C131 D118"),
    Fact("what controls is wired to the controller", "Z139"),
    Fact("zones, heaters and cycles of one job state the same things", "Z140 Y122"),
    Fact("hardness limits are ones the metal can have", "K103"),
    Fact("what a thermocouple monitors is where it sits", "Z138"),
    Fact("insulation and heaters fit the band", "B108 B109"),
    Fact("what lies in the gradient band gets warm", "N124 N128 N134"),
    Fact("the clock of a level pipe starts at its top", "Z153"),
    Fact("each examination is another one, with a report of its own", "K118"),
    Fact("a socket weld has a socket, and piping a book for piping", "J217 L234"),
    Fact("a butt weld has no throat", "J220"),
    Fact("a line has one size, one metal and one service", "J221 J222 J230"),
    Fact("what is checked of supports is there", "K119"),
    Fact("hardness is measured at each place named", "K120"),
    Fact("cautions and checks name the temperatures of the cycle", "K121"),
    Fact("checks count what there is", "K131"),
    Fact("what is released is released by somebody else than who did it", "K130"),
    Fact("the band ratio is 5 or more (AWS D10.10:2021)", "B127"),
    Fact("heaters lie no further apart than the wall is thick", "B126"),
    Fact("coatings, rubber and plastic nearby stay colder than 150 degC", "N130"),
    Fact(
        "a job has the welds and the figures that its title, purpose and history give it",
        "D121 D122 D124",
    ),
    Fact("checks name what stands near the weld", "K128"),
    Fact("readings by hand are taken as often as the job says", "K127"),
    Fact("a service is the one the words speak of", "J223"),
    Fact("a hold is where its step ends, and counts in one way", "Y141 Y142"),
    Fact("control lasts until the last step has ended", "Y140"),
    Fact("what controls lies under its heaters, not between them", "Z152"),
    Fact("the hold is that of a qualification, which is named", "J207 J208 J218 J229"),
    Fact(
        "preheat is kept as long and as wide as what follows needs",
        "P117 P118 P119 P136 P137 P138 P139 P142 P143",
    ),
    Fact("a bake and a preheat are heated no faster than the wall bears", "P141"),
    Fact("what is done when welding stops is decided before", "P120 P144"),
    Fact("alarms, waits and spreads fit into the hold range", "Y121 Y131"),
    Fact(
        "joints lie within the scope; documents are signed and issued in order",
        "D109 D110 D111 D113 D114",
    ),
    Fact("every quantity is one the trade would call plausible", "Q203"),
    Fact("a tolerance resolves to a least and a greatest value", "Q106"),
    Fact("the hold lies in the range of each part joined", "L201 L216"),
    Fact("somebody answers for the least and the greatest of it, and for its time", "L226"),
    Fact("it is one that is usual for the grade", "L227"),
    Fact("a procedure is followed for the work it applies to", "R110"),
    Fact("an order of precedence ranks what the job is under", "D108"),
    Fact("no calibration is older than the owner accepts", "R111"),
    Fact("a weld is heated under a job, and so under books", "D112"),
    Fact("it stays below the lower critical temperature, errors included", "Y108 M201 M203"),
    Fact("it stays below the tempering temperature (EN 13445-4 11.1)", "Y109 P111 J228"),
    Fact("the range has room for control, wire and guard band", "Y107 Y118 R111"),
    Fact("the thickness that governs is that of the book", "L215 L202 L218"),
    Fact(
        "rates follow from the same thickness, and are controlled where limited",
        "L204 L205 L207 L208 L209 Y106 Y120",
    ),
    Fact(
        "a lower-temperature hold is agreed upon and allowed",
        "L222",
        refused=((_PURPOSE, f"{_PURPOSE}\n  lower-temperature hold"),),
    ),
    Fact(
        "an exemption names its book, and its conditions hold",
        "L221 L220 L228 L233",
        refused=((_PURPOSE, f'{_PURPOSE}\n  not required "thin"'),),
    ),
    Fact("time at temperature stays within the qualification (ASME IX QW-407)", "J201 J202 L230"),
    Fact("a book is named with an edition there is", "L103 L102"),
    Fact("9Cr steel cools and transforms before it is tempered", "L225 L212"),
    Fact("hardening steel does not stand cold as welded at will", "Y138"),
    Fact("a program stays below the rate it must not pass", "Y139"),
    Fact(
        "preheat, interpass and width are those of book and qualification",
        "P101 P102 P103 P104 P110 P115 P116 P121 P122 P123 P125 P126 P127 J203",
    ),
    Fact(
        "a bake-out says temperature, time, width, beginning, lining and delay of tests",
        "P106 P107 P112 R111",
    ),
    Fact("no band is many times as wide as the one inside it", "B122"),
    Fact("a width says whether it is total or each side", "Q107"),
    Fact(
        "bands lie within each other and are as wide as asked", "B101 B102 B103 B104 B107 B120 B123"
    ),
    Fact("heaters reach all round, with no gap at the bottom", "B106 Z112 Z113 Z114 Z115 Z127"),
    Fact("insulation and supply are enough to hold the temperature", "B105 N108 E104 E106"),
    Fact("a joint that is heated says how, and its run is recorded", "J204 E105"),
    Fact("clock positions say what lies at 12:00 and from where it is seen", "Z123 Z124 Z125"),
    Fact("sides of the weld and the view fit together and are settled", "Z133 Z134 Z135"),
    Fact(
        "spread, overshoot, margins, charging and cooling keep to the book",
        "L203 L206 L210 L211 L213 L214",
    ),
    Fact("a weld round a pipe is heated all round (ASME B31.3 331.2.6)", "Z132 L224"),
    Fact(
        "the hold starts when all controlling thermocouples have arrived",
        "Y110",
        refused=(("while all in range", "when it feels right"),),
    ),
    Fact(
        "the steps lead to the hold and back, each the right way",
        "Y101 Y102 Y103 Y104 Y105 Y112 Y113",
    ),
    Fact("the inside of the wall arrives later than the outside", "Y117"),
    Fact("a slope of temperature that is limited is measured where it is limited", "Y123"),
    Fact("what is done after a failure is decided before", "Y111"),
    Fact("the program is that of the procedure, with its revision", "Y116 Y115 E103 E118"),
    Fact("nobody works to a superseded or open document", "D101 D102 D103 D104 D105 D123"),
    Fact("the procedures at hand are followed, with what amends them", "D119"),
    Fact(
        "the owner accepts local heating (US Navy S9074)",
        "D106",
        refused=(("heating by resistance", "heating by exothermic kit"),),
    ),
    Fact(
        "ends are closed against draught, and the bore is dry (AWS D10.10:2021)", "N101 N102 N110"
    ),
    Fact("a liner reaches past the heaters, and the bore is what it is said to be", "N111 N112"),
    Fact("the soak band is in range through the wall and all round", "T101 T102 T103 T106 T107"),
    Fact("beside zone borders metal gets hotter than its control thermocouples", "T104"),
    Fact("a zone without power to spare arrives late", "T105"),
    Fact("the inside of a wall lags, and the pipe falls off beyond the band", "T109"),
    Fact("what a model does not know it says, and predicts nothing", "T108"),
    Fact(
        "the hot line can move, and is held",
        "N103 N105 N107 N115 N116 N117 N118 N119 N121 N122 N123 N125 N133 K117",
    ),
    Fact("what stands in the band bears it, or is protected", "N104 N106"),
    Fact("attachments, studs and name plates are welded on before, and nothing after", "D107"),
)

FACTS = (*HOW_MEASURED, *HOW_ATTACHED, *HOW_WIRED, *HOW_PLANNED, *WHERE_PAPERS_DIFFER)
