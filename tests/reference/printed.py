"""Published tables once more, copied by hand from the sources named, in the printed units: what the files must say."""

# NEC chapter 9 Table 8 (2023), uncoated copper, direct current, 75 °C, stranded rows: circular mils, ohm for 1000 ft. A
# public table page, most rows also in a public copy of the code.
STRANDED = {
    "18 AWG": ("1620", "7.95"), "16 AWG": ("2580", "4.99"), "14 AWG": ("4110", "3.14"), "12 AWG": ("6530", "1.98"),
    "10 AWG": ("10380", "1.24"), "8 AWG": ("16510", "0.778"), "4 AWG": ("41740", "0.308"),
}  # fmt: skip

# Cross-sections in mm² by ASTM B258-02 to three decimals, from a collection of check rows; 14 AWG from memory.
AREAS = {
    "18 AWG": "0.823", "16 AWG": "1.309", "14 AWG": "2.081", "12 AWG": "3.309", "10 AWG": "5.261", "8 AWG": "8.366", "4 AWG": "21.151",
}  # fmt: skip

# NEC Table 310.16 (2023), copper: A in the 60 °C and the 90 °C column. Public copy and a second page; 16 AWG in
# one of them, 18 and 16 AWG at 60 °C from memory of NFPA 79 (2018) Table 12.5.1.
AMPACITY = {
    "18 AWG": ("7", "14"), "16 AWG": ("10", "18"), "14 AWG": ("15", "25"), "12 AWG": ("20", "30"), "10 AWG": ("30", "40"),
    "8 AWG": ("40", "55"), "6 AWG": ("55", "75"),
}  # fmt: skip

# NEC Table 310.15(B)(1)(1) (2023), base 30 °C: top of the band in °C, factor for 60 °C and for 90 °C insulation.
AMBIENT = {
    "21 to 25 °C": ("25", "1.08", "1.04"), "26 to 30 °C": ("30", "1.00", "1.00"), "31 to 35 °C": ("35", "0.91", "0.96"),
    "36 to 40 °C": ("40", "0.82", "0.91"), "41 to 45 °C": ("45", "0.71", "0.87"), "46 to 50 °C": ("50", "0.58", "0.82"),
    "51 to 55 °C": ("55", "0.41", "0.76"), "56 to 60 °C": ("60", "", "0.71"), "61 to 65 °C": ("65", "", "0.65"),
    "66 to 70 °C": ("70", "", "0.58"),
}  # fmt: skip

# NEC Table 310.15(C)(1) (2023): most conductors of the band, per cent. Up to three by the heading of Table 310.16.
BUNDLE = {
    "1 to 3": ("3", "100"), "4 to 6": ("6", "80"), "7 to 9": ("9", "70"), "10 to 20": ("20", "50"), "21 to 30": ("30", "45"),
}  # fmt: skip

# NEC Table 400.5(A)(1) (2023): flexible cord, column A (three conductors) and column B (two).
CORD = {
    "18 AWG": ("7", "10"), "16 AWG": ("10", "13"), "14 AWG": ("15", "18"), "12 AWG": ("20", "25"), "10 AWG": ("25", "30"), "8 AWG": ("35", "40"),
}  # fmt: skip

# NEC Table 430.247 (2023): A at 90, 120, 180 and 240 V.
DC_MOTORS = {
    "1/4 hp": ("4.0", "3.1", "2.0", "1.6"), "1/3 hp": ("5.2", "4.1", "2.6", "2.0"), "1/2 hp": ("6.8", "5.4", "3.4", "2.7"),
    "3/4 hp": ("9.6", "7.6", "4.8", "3.8"), "1 hp": ("12.2", "9.5", "6.1", "4.7"), "1 1/2 hp": ("-", "13.2", "8.3", "6.6"),
    "3 hp": ("-", "25", "16", "12.2"),
}  # fmt: skip

# NEC Table 250.122 (2023), copper: device up to A; the area of the printed gauge by Table 8.
PROTECTIVE = {"15 A, 14 AWG": ("15", "4110"), "20 A, 12 AWG": ("20", "6530"), "60 A, 10 AWG": ("60", "10380")}

# UL 248-14 supplementary fuses, interrupting rating in A (a fuse maker's guide and a maker's data sheet); CC from memory.
BREAKING = {
    "supplementary, 125 V AC": "10000", "supplementary, 250 V AC, to 10 A": "200", "supplementary, 250 V AC, to 15 A": "750",
    "supplementary, 250 V AC, to 30 A": "1500", "class CC, 600 V AC": "200000",
}  # fmt: skip

# Ratings of UL fuses on the market: 2 1/2 A and up in a distributor's motor fuse table, below from memory. NEC 240.6(A)
# has 15 to 30 A as standard ratings and 1, 3, 6 and 10 A as additional ones for fuses.
FUSES_ON_THE_MARKET = (
    "1/2, 6/10, 8/10, 1, 1-1/8, 1-1/4, 1-4/10, 1-6/10, 1-8/10, 2, 2-1/4, 2-1/2, 2-8/10, 3, 3-2/10, 3-1/2, 4, 4-1/2, 5, 5-6/10, 6, 6-1/4, 7, "
    "7-1/2, 8, 9, 10, 12, 15, 17-1/2, 20, 25, 30"
)
STANDARD_FUSES = (1, 3, 6, 10, 15, 20, 25, 30)

# IEC 60063, series E12.
E12 = ("1.0", "1.2", "1.5", "1.8", "2.2", "2.7", "3.3", "3.9", "4.7", "5.6", "6.8", "8.2")

# Rules: printed value and the clause that must stand beside it.
RULES = {
    "continuous share": ("80 %", "210.20(A)"),  # NEC, from memory; the 18 and 16 AWG rows of 240.4(D) show it
    "fuse share": ("75 %", "fuse makers' guides"),  # UL 248-14 fuse at 25 °C, makers' selection guides
    "fuse guard": ("100 %", "240.4"),  # NEC: ampacity at least the rating
    "warm copper": ("100 %", "Table 8"),  # NEC chapter 9 Table 8 is for 75 °C
    "overload factor": ("115 %", "430.32(A)(1)"),  # NEC: neither service factor nor rise known
    "disconnect factor": ("115 %", "430.110(A)"),  # NEC
    "drop limit": ("5 %", "12.5"),  # IEC 60204-1, from memory
    "line tolerance": ("10 %", "4.3.2"),  # IEC 60204-1, from memory
    "safe voltage": ("60 V", "6.2.4"),  # IEC 60204-1, a digest of the 2016 edition
    "safe time": ("5 s", "6.2.4"),
    "start let-through": ("1.5 s", "60127-2"),  # four times its rating for 0.095 s: 16 x 0.095
    "start multiple": ("4", "430.52"),  # NEC: seven times at start over 175 percent
}
FROM_MEMORY = ("drop limit", "line tolerance", "start multiple", "start let-through")

# IEC 60757 letter codes of colours.
COLOUR_CODES = {"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR", "GNYE"}
