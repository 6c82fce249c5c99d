"""16 NYCRR 255.239 (public law text)."""

from tests.rows import each_row

BOOK = "nycrr-16-255"
TREATMENT = "post-weld heat treatment"


@each_row(
    ("carbon", "manganese", "status"),
    [
        # (a): C over 0.32 %, or C + Mn/4 over 0.65 %: 0.30 + 1.40/4 = 0.65 is not over it,
        # 0.30 + 1.44/4 = 0.66 is.
        ("0.32 %", "0.40 %", None),
        ("0.33 %", "0.40 %", "required"),
        ("0.30 %", "1.40 %", None),
        ("0.30 %", "1.44 %", "required"),
    ],
)
def test_by_analysis(govern, carbon, manganese, status):
    found = govern(BOOK, p_number="1", wall="10 mm", carbon=carbon, manganese=manganese)
    assert found[TREATMENT].status == status


@each_row(
    ("system", "wall", "status"),
    [
        ("SI", "32 mm", None),
        ("SI", "32.1 mm", "required"),
        ("US", "1 1/4 in", None),
        ("US", "1.26 in", "required"),
    ],
)
def test_by_wall(govern, system, wall, status):
    # (c): more than 1 1/4 in (32 mm).
    facts = {"p_number": "1", "carbon": "0.2 %", "manganese": "1 %"}
    assert govern(BOOK, None, system, wall=wall, **facts)[TREATMENT].status == status


def test_the_run_counts_at_a_branch(govern):
    # (d)(2): the run of 40 mm, though the branch has 10 mm.
    facts = {"p_number": "1", "carbon": "0.2 %", "manganese": "1 %", "weld_kind": "branch"}
    found = govern(BOOK, wall="10 mm", run_wall="40 mm", throat="12 mm", nominal_size=2, **facts)
    assert found["governing thickness"].exactly.to("mm") == 40
    assert found[TREATMENT].status == "required"


@each_row(
    ("kind", "size", "throat", "status"),
    [
        # (f)(1): a leg of 13 mm is a throat of 13 / 1.4142 = 9.19 mm.
        ("fillet", 2, "9.19 mm", "exempt"),
        ("fillet", 2, "9.20 mm", "required"),
        ("fillet", 3, "9 mm", "required"),
        # (f)(2): 9.5 / 1.4142 = 6.717 mm.
        ("attachment", 12, "6.71 mm", "exempt"),
        ("attachment", 12, "6.72 mm", "required"),
    ],
)
def test_small_welds_are_exempt(govern, kind, size, throat, status):
    facts = {"p_number": "1", "carbon": "0.2 %", "manganese": "1 %", "wall": "40 mm"}
    found = govern(BOOK, weld_kind=kind, nominal_size=size, throat=throat, **facts)
    assert found[TREATMENT].status == status


def test_the_inch_figures_of_small_welds(govern):
    # 1/2 in leg: throat 0.3536 in; 3/8 in leg: 0.2652 in.
    facts = {"p_number": "1", "carbon": "0.2 %", "manganese": "1 %", "wall": "2 in"}
    for kind, met, over in (
        ("fillet", "0.353 in", "0.354 in"),
        ("attachment", "0.265 in", "0.266 in"),
    ):
        for throat, status in ((met, "exempt"), (over, "required")):
            found = govern(BOOK, None, "US", weld_kind=kind, nominal_size=2, throat=throat, **facts)
            assert found[TREATMENT].status == status, (kind, throat)
