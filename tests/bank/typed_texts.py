"""What a hand types and how it must be read: once for the hand who writes 12.5, once for the one who writes 12,5.

The expected readings were decided from the design before the code was run. A reading is (value, unit); else it is the
outcome that the text ends in.
"""

UNREADABLE = "unreadable"
OTHER = "other-dimension"
ASKED = "ask-back"

# text, asked unit, reading for 12.5, reading for 12,5
FORMS_NAMED_IN_THE_DESIGN = [
    ("44,600", "lbf", (44_600, "lbf"), (44.6, "lbf")),
    ("44 600", "lbf", (44_600, "lbf"), (44_600, "lbf")),
    ("44,600 lb", "lbf", (44_600, "lb"), (44.6, "lb")),
    ("44.6 kip", "lbf", (44.6, "klbf"), ASKED),
    ("17-1/2 in", "in", (17.5, "in"), (17.5, "in")),
    ('17 1/2"', "in", (17.5, "in"), (17.5, "in")),
    ("30' 6\"", "ft", (30.5, "ft"), (30.5, "ft")),
    ("1.2e6", "lbf", (1_200_000, "lbf"), ASKED),
    ("3 × 10^5", "lbf", (300_000, "lbf"), (300_000, "lbf")),
    ("½", "in", (0.5, "in"), (0.5, "in")),
    ("−3", "lbf", (-3, "lbf"), (-3, "lbf")),
    ("5 ton", "lbf", ASKED, ASKED),
    ("5 J", "lbf", OTHER, OTHER),
]

THE_DECIMAL_MARK = [
    ("12.5", "m", (12.5, "m"), ASKED),
    ("12,5", "m", ASKED, (12.5, "m")),
    ("12,500", "m", (12_500, "m"), (12.5, "m")),
    ("12.500", "m", (12.5, "m"), (12_500, "m")),
    ("1,234.5", "m", (1_234.5, "m"), ASKED),
    ("1.234,5", "m", ASKED, (1_234.5, "m")),
    ("1,234,567", "lbf", (1_234_567, "lbf"), ASKED),
    ("1.234.567", "lbf", ASKED, (1_234_567, "lbf")),
    ("1 234.5", "m", (1_234.5, "m"), ASKED),
    ("1 234,5", "m", ASKED, (1_234.5, "m")),
    ("1 234 567", "lbf", (1_234_567, "lbf"), (1_234_567, "lbf")),
    ("0.841", "", (0.841, ""), ASKED),
    ("0,841", "", ASKED, (0.841, "")),
    (".5", "m", (0.5, "m"), ASKED),
    (",5", "m", ASKED, (0.5, "m")),
    ("44,6", "kN", ASKED, (44.6, "kN")),
    ("1234,567", "kN", ASKED, (1_234.567, "kN")),
    ("1234.567", "kN", (1_234.567, "kN"), ASKED),
    ("1,2e3", "kN", ASKED, (1_200, "kN")),
    ("30' 6.5\"", "ft", (30 + 6.5 / 12, "ft"), ASKED),
    ("30' 6,5\"", "ft", ASKED, (30 + 6.5 / 12, "ft")),
]

GROUPING_FAULTS = [
    ("4,46,00", "lbf", UNREADABLE, UNREADABLE),
    ("1.2.3", "lbf", UNREADABLE, UNREADABLE),
    ("1,23,456", "lbf", UNREADABLE, UNREADABLE),
    ("1,234 567", "lbf", UNREADABLE, UNREADABLE),
    ("1.234,567.8", "lbf", UNREADABLE, UNREADABLE),
    ("12 34", "lbf", UNREADABLE, UNREADABLE),
    ("1 00", "lbf", UNREADABLE, UNREADABLE),
    ("1234 567", "lbf", UNREADABLE, UNREADABLE),
    ("44,,600", "lbf", UNREADABLE, UNREADABLE),
    ("44..6", "lbf", UNREADABLE, UNREADABLE),
    ("44,60", "lbf", ASKED, (44.6, "lbf")),
    ("44,6000", "lbf", ASKED, (44.6, "lbf")),
]

SIGNS = [
    ("+5", "kN", (5, "kN"), (5, "kN")),
    ("-5", "kN", (-5, "kN"), (-5, "kN")),
    ("–5 kN", "kN", (-5, "kN"), (-5, "kN")),
    ("− 5", "kN", (-5, "kN"), (-5, "kN")),
    ("−17 1/2 in", "in", (-17.5, "in"), (-17.5, "in")),
    ("−30' 6\"", "ft", (-30.5, "ft"), (-30.5, "ft")),
    ("+-3", "kN", UNREADABLE, UNREADABLE),
    ("--3", "kN", UNREADABLE, UNREADABLE),
    ("5-", "kN", UNREADABLE, UNREADABLE),
]

FRACTIONS = [
    ("1/2", "in", (0.5, "in"), (0.5, "in")),
    ("17½", "in", (17.5, "in"), (17.5, "in")),
    ("17 ½ in", "in", (17.5, "in"), (17.5, "in")),
    ('17-½"', "in", (17.5, "in"), (17.5, "in")),
    ("9⅝ in", "in", (9.625, "in"), (9.625, "in")),
    ("5 1⁄2 in", "in", (5.5, "in"), (5.5, "in")),
    ("11/2 in", "in", (5.5, "in"), (5.5, "in")),
    ("4 1/2 lb", "lb", (4.5, "lb"), (4.5, "lb")),
    ("1/0", "in", UNREADABLE, UNREADABLE),
    ("5 3/2", "in", UNREADABLE, UNREADABLE),
    ("1/2/3", "in", UNREADABLE, UNREADABLE),
    ("5 1/2 1/2", "in", UNREADABLE, UNREADABLE),
    ("17--1/2", "in", UNREADABLE, UNREADABLE),
    ("½½", "in", UNREADABLE, UNREADABLE),
    ("12.5½", "in", UNREADABLE, UNREADABLE),
]

FEET_AND_INCHES = [
    ("30’ 6”", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30′ 6″", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30'6\"", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30'-6\"", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30' 6''", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30' 6", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30 ft 6 in", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30 FT 6 IN", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30 feet 6 inches", "ft", (30.5, "ft"), (30.5, "ft")),
    ("30' 6 1/2\"", "ft", (30 + 6.5 / 12, "ft"), (30 + 6.5 / 12, "ft")),
    ("30' 6½\"", "ft", (30 + 6.5 / 12, "ft"), (30 + 6.5 / 12, "ft")),
    ("30'", "ft", (30, "ft"), (30, "ft")),
    ("30’", "m", (30, "ft"), (30, "ft")),
    ('6"', "ft", (6, "in"), (6, "in")),
    ("6 ”", "ft", (6, "in"), (6, "in")),
    ("6''", "ft", (6, "in"), (6, "in")),
    ("30' 0\"", "ft", (30, "ft"), (30, "ft")),
    ("30' 12\"", "ft", UNREADABLE, UNREADABLE),
    ("30' 6\" 3", "ft", UNREADABLE, UNREADABLE),
    ("30' 6' 3\"", "ft", UNREADABLE, UNREADABLE),
    ('30 6"', "ft", UNREADABLE, UNREADABLE),
    ("30' 6\"", "lbf", OTHER, OTHER),
    ("1'000", "ft", UNREADABLE, UNREADABLE),
    ("'", "ft", UNREADABLE, UNREADABLE),
]

EXPONENTS = [
    ("3×10⁵", "lbf", (300_000, "lbf"), (300_000, "lbf")),
    ("3 x 10^5 lbf", "lbf", (300_000, "lbf"), (300_000, "lbf")),
    ("3*10^5", "lbf", (300_000, "lbf"), (300_000, "lbf")),
    ("3 X 10 ^ 5", "lbf", (300_000, "lbf"), (300_000, "lbf")),
    ("2 × 10⁻³ m", "m", (0.002, "m"), (0.002, "m")),
    ("5e3", "lbf", (5_000, "lbf"), (5_000, "lbf")),
    ("5E+3 N", "lbf", (5_000, "N"), (5_000, "N")),
    ("5e-3", "m", (0.005, "m"), (0.005, "m")),
    ("1e15", "N", (1e15, "N"), (1e15, "N")),
    ("1.1e15", "N", UNREADABLE, UNREADABLE),
    ("1e16", "N", UNREADABLE, UNREADABLE),
    ("1e999", "N", UNREADABLE, UNREADABLE),
    ("1e9999", "N", UNREADABLE, UNREADABLE),
    ("1e-999", "N", UNREADABLE, UNREADABLE),
    ("1e", "N", UNREADABLE, UNREADABLE),
    ("1e3.5", "N", UNREADABLE, UNREADABLE),
    ("1e5e5", "N", UNREADABLE, UNREADABLE),
    ("10^5", "N", UNREADABLE, UNREADABLE),
    ("3 × 10^5 × 10^5", "N", UNREADABLE, UNREADABLE),
    ("9**9**9", "N", UNREADABLE, UNREADABLE),
]

TONS_AND_OTHER_DIMENSIONS = [
    ("5 tons", "lbf", ASKED, ASKED),
    ("5 TON", "t", ASKED, ASKED),
    ("5 ton", "ft", OTHER, OTHER),
    ("5 st", "lbf", (5, "st"), (5, "st")),
    ("5 short tons", "lbf", (5, "st"), (5, "st")),
    ("5 t", "lbf", (5, "t"), (5, "t")),
    ("5 tonnes", "lbf", (5, "t"), (5, "t")),
    ("5 long tons", "lbf", (5, "lt"), (5, "lt")),
    ("5 m", "lbf", OTHER, OTHER),
    ("5 lb/ft", "lbf", OTHER, OTHER),
    ("5 lbf", "ft·lbf", OTHER, OTHER),
    ("5 ft-lb", "N·m", (5, "ft·lbf"), (5, "ft·lbf")),
    ("5 m2", "m", OTHER, OTHER),
    ("5 m²", "m", OTHER, OTHER),
    ("5 ft²", "ft²", (5, "ft²"), (5, "ft²")),
    ("5 ft2", "ft²", (5, "ft²"), (5, "ft²")),
    ("5 ft3", "bbl", (5, "ft³"), (5, "ft³")),
    ("0 in2", "ft²", (0, "in²"), (0, "in²")),
    ("84.1 %", "", (84.1, "%"), ASKED),
]

REFUSED = [
    ("", "lbf", UNREADABLE, UNREADABLE),
    ("   ", "lbf", UNREADABLE, UNREADABLE),
    ("lbf", "lbf", UNREADABLE, UNREADABLE),
    ("ton", "lbf", UNREADABLE, UNREADABLE),
    ("-", "lbf", UNREADABLE, UNREADABLE),
    (".", "lbf", UNREADABLE, UNREADABLE),
    ("nan", "lbf", UNREADABLE, UNREADABLE),
    ("inf", "lbf", UNREADABLE, UNREADABLE),
    ("-Infinity", "lbf", UNREADABLE, UNREADABLE),
    ("1_000", "lbf", UNREADABLE, UNREADABLE),
    ("0x1F", "lbf", UNREADABLE, UNREADABLE),
    ("٤٤٦٠٠", "lbf", UNREADABLE, UNREADABLE),
    ("４４６００", "lbf", UNREADABLE, UNREADABLE),
    ("44٫6", "lbf", UNREADABLE, UNREADABLE),
    ("४४ lbf", "lbf", UNREADABLE, UNREADABLE),
    ("Ⅻ", "lbf", UNREADABLE, UNREADABLE),
    ("四十", "lbf", UNREADABLE, UNREADABLE),
    ("5²", "lbf", UNREADABLE, UNREADABLE),
    ("5³ lbf", "lbf", UNREADABLE, UNREADABLE),
    ("5 5 lbf", "lbf", UNREADABLE, UNREADABLE),
    ("5 lbf 5", "lbf", UNREADABLE, UNREADABLE),
    ("5 + 5", "lbf", UNREADABLE, UNREADABLE),
    ("100-200", "lbf", UNREADABLE, UNREADABLE),
    ("5 klbf (22 kN)", "lbf", UNREADABLE, UNREADABLE),
    ("(5)", "lbf", UNREADABLE, UNREADABLE),
    ("about 5", "lbf", UNREADABLE, UNREADABLE),
    ("5 furlongs", "lbf", UNREADABLE, UNREADABLE),
    ("5 lbf\u202e", "lbf", UNREADABLE, UNREADABLE),
    ("5\x00", "lbf", UNREADABLE, UNREADABLE),
    ("5 🔧", "lbf", UNREADABLE, UNREADABLE),
]

# What hands of the trade write (common practice, no source), and what is only half a unit.
SPELLINGS_OF_THE_TRADE = [
    ("300,000 #", "lbf", (300_000, "lb"), (300, "lb")),
    ("19.5 #/ft", "kg/m", (19.5, "lb/ft"), ASKED),
    ("19.5#", "lb/ft", (19.5, "lb/ft"), ASKED),
    ("10 #", "lb/gal", (10, "lb/gal"), (10, "lb/gal")),
    ("10 #/gal", "SG", (10, "lb/gal"), (10, "lb/gal")),
    ("1.2 g/cc", "lb/gal", (1.2, "SG"), ASKED),
    ("90 deg", "°", (90, "°"), (90, "°")),
    ("5 m3/h", "gal/min", (5, "m³/h"), (5, "m³/h")),
    ("315k", "lbf", ASKED, ASKED),
    ("315 K", "kN", ASKED, ASKED),
    ("5 psig", "psi", UNREADABLE, UNREADABLE),
    ("5 m3/x", "gal/min", UNREADABLE, UNREADABLE),
]

NOBODY_GROUPS_AFTER_A_ZERO = [
    ("0,500", "m", ASKED, (0.5, "m")),
    ("0.500", "m", (0.5, "m"), ASKED),
    ("0,050 kN", "kN", ASKED, (0.05, "kN")),
    ("0 500", "m", UNREADABLE, UNREADABLE),
    ("0", "kN", (0, "kN"), (0, "kN")),
    ("007", "kN", (7, "kN"), (7, "kN")),
]

SPACES = [
    ("  44,600 lbf  ", "lbf", (44_600, "lbf"), (44.6, "lbf")),
    ("44\u00a0600", "lbf", (44_600, "lbf"), (44_600, "lbf")),
    ("44\u202f600 kN", "kN", (44_600, "kN"), (44_600, "kN")),
    ("44\u2009600", "lbf", (44_600, "lbf"), (44_600, "lbf")),
    ("44600lbf", "lbf", (44_600, "lbf"), (44_600, "lbf")),
    ("1.5kN", "kN", (1.5, "kN"), ASKED),
]

TABLE = [
    *FORMS_NAMED_IN_THE_DESIGN, *THE_DECIMAL_MARK, *GROUPING_FAULTS, *SIGNS, *FRACTIONS, *FEET_AND_INCHES, *EXPONENTS,
    *TONS_AND_OTHER_DIMENSIONS, *REFUSED, *SPELLINGS_OF_THE_TRADE,
    *NOBODY_GROUPS_AFTER_A_ZERO, *SPACES,
]  # fmt: skip
