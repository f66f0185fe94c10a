"""Published tables of Europe once more, copied by hand from the sources named, in the printed units: what the files must say."""

# IEC 60228:2004 Table 3, class 5, 20 °C: most ohm/km, plain and tinned. Two or three public copies of the plain column.
CLASS_5 = {
    "0.75 mm²": ("0.75", "26.0", "26.7"), "1.0 mm²": ("1.0", "19.5", "20.0"), "1.5 mm²": ("1.5", "13.3", "13.7"),
    "2.5 mm²": ("2.5", "7.98", "8.21"), "4 mm²": ("4", "4.95", "5.09"), "6 mm²": ("6", "3.30", "3.39"),
    "10 mm²": ("10", "1.91", "1.95"), "16 mm²": ("16", "1.21", "1.24"),
}  # fmt: skip
# The same standard, Table 1, class 1 (solid), plain copper, ohm/km at 20 °C; from memory.
CLASS_1 = {
    "0.75 mm²": 24.5, "1.0 mm²": 18.1, "1.5 mm²": 12.1, "2.5 mm²": 7.41, "4 mm²": 4.61, "6 mm²": 3.08, "10 mm²": 1.83, "16 mm²": 1.15,
}  # fmt: skip

# IEC 60204-1:2016 Table 6, PVC, 40 °C, column B2, in a drive maker's manual; 2.5 mm² from memory.
AMPACITY = {
    "0.75 mm²": "8.5", "1.0 mm²": "10.1", "1.5 mm²": "13.1", "2.5 mm²": "17.4", "4 mm²": "23", "6 mm²": "30", "10 mm²": "40", "16 mm²": "54",
}  # fmt: skip
# IEC 60364-5-52 Table B.52.4, PVC, 30 °C, B2, three loaded conductors, in a compressor maker's manual.
AMPACITY_AT_30 = {"1.5 mm²": 15, "2.5 mm²": 20, "4 mm²": 27, "6 mm²": 34, "10 mm²": 46, "16 mm²": 62}

# IEC 60204-1 Table D.1, base 40 °C, in a drive maker's manual (50 °C from memory), and IEC 60364-5-52 Table B.52.14, PVC,
# base 30 °C (from memory; 0.87 read).
AMBIENT_40 = {
    "30": "1.15",
    "35": "1.08",
    "40": "1.00",
    "45": "0.91",
    "50": "0.82",
    "55": "0.71",
    "60": "0.58",
}
AMBIENT_30 = {
    "30": "1.00",
    "35": "0.94",
    "40": "0.87",
    "45": "0.79",
    "50": "0.71",
    "55": "0.61",
    "60": "0.50",
}

# IEC 60204-1 Table D.2, B1 and B2: circuits, factor (from memory); one circuit by Table 6. Conductors at two to a circuit.
BUNDLE = {
    "1 to 3": ("3", "1", "1.00"), "4": ("4", "2", "0.80"), "5 to 8": ("8", "4", "0.65"), "9 to 12": ("12", "6", "0.57"), "13 to 18": ("18", "9", "0.50"),
}  # fmt: skip

# IEC 60335-1 Table 11: cord by the current of the appliance, in two pump makers' manuals. 0.5 mm² is for 2 m only: left out.
CORD = {"0.75 mm²": "6", "1.0 mm²": "10", "1.5 mm²": "16", "2.5 mm²": "25", "4 mm²": "32"}

# ISO 3, series R10 of preferred numbers: one decade.
R10 = ("1", "1.25", "1.6", "2", "2.5", "3.15", "4", "5", "6.3", "8")
# IEC 60269-1, gG, above 10 A (16 A and up at a retailer's page, 12 A from memory).
GG_ABOVE_TEN = ("12", "16", "20", "25", "32")

# IEC 60127-2: L, E, H in a marking guide and makers' data sheets; gG from memory of IEC 60269-2 and IEC 60269-3.
BREAKING = {
    "IEC 60127 L, 250 V AC, to 3.15 A": "35", "IEC 60127 L, 250 V AC, 4 A": "40", "IEC 60127 L, 250 V AC, 5 A": "50",
    "IEC 60127 L, 250 V AC, 6.3 A": "63", "IEC 60127 L, 250 V AC, 8 A": "80", "IEC 60127 L, 250 V AC, 10 A": "100",
    "IEC 60127 E, 250 V AC": "150", "IEC 60127 H, 250 V AC": "1500", "gG for households, to 240 V AC": "6000", "gG for industry, to 690 V AC": "50000",
}  # fmt: skip

# Rules: printed value, words that must stand in the clause, and whether it is from memory.
RULES = {
    "continuous share": ("100 %", "433.1", True),  # IEC 60364-4-43: I_B ≤ I_n
    "fuse share": (
        "100 %",
        "fuse makers' guides",
        False,
    ),  # IEC 60127 fuse at 25 °C, makers' selection guides
    "fuse guard": ("145 %", "433.1", False),  # 2.1 (IEC 60127-2, makers' data sheets) over 1.45
    "warm copper": ("120 %", "IEC 60028", False),  # 1 + 0.00393·50
    "overload factor": ("100 %", "60947-4-1", True),  # no trip at 1.05, trip at 1.20 times the setting
    "disconnect factor": ("100 %", "60947-3", True),
    "drop limit": ("5 %", "12.5", True),  # IEC 60204-1
    "line tolerance": ("10 %", "4.3.2", True),  # IEC 60204-1
    "safe voltage": ("60 V", "6.2.4", False),  # IEC 60204-1, a digest of the 2016 edition
    "safe time": ("5 s", "6.2.4", False),
    "touch voltage": ("60 V", "61140", True),
    "coast limit": ("10 s", "common practice", False),
    "touch limit": ("60 degC", "common practice", False),
    "wire insulation": ("450 V", "450/750", True),
    "nominal line": ("230 V", "60038", True),
    "usual breaker": ("16 A", "60898", True),
    "line frequency": ("50 Hz", "60038", True),
    "usual drive output": ("180 V", "drive manuals", True),
    "start let-through": ("1.5 s", "60127-2", True),  # four times its rating for 0.095 s: 16 x 0.095
    "start multiple": ("2.75", "60127-2", True),  # time-lag, high breaking capacity: not before 0.75 s at 2.75 times
}
