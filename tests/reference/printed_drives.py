"""Tables of motors, transformers and supplies once more, copied by hand from the sources named, in the printed units.

Each: table, first column's key, then the numbers of the row in the order of the table's columns; "-" where the source
gives none.
"""

TABLES: dict[str, dict[str, tuple[str, ...]]] = {
    # An audio-kit article (3.5 A/mm²) and a transformer spreadsheet (3 A/mm²); the rest from memory.
    "current_density": {
        "continuous, enclosed": ("2", "2.5"), "continuous, open": ("3", "3.5"), "intermittent or fan-cooled": ("4", "6"),
    },
    # Makers' catalogues, from memory.
    "transformer_regulation": {
        "20 VA": ("20", "15", "20"), "50 VA": ("50", "10", "12"), "100 VA": ("100", "8", "10"), "300 VA": ("300", "5", "6"),
        "1000 VA": ("1000", "3", "4"),
    },
    # IEC 60085, from memory.
    "insulation_classes": {"A": ("105",), "E": ("120",), "B": ("130",), "F": ("155",), "H": ("180",)},
    # A hobby electronics page; salvaged cores by the rules of two pages, 0.85 and 0.87 T worked back from their turns.
    "iron_flux_density": {
        "unknown, salvaged": ("0.85", "0.87"), "mild steel": ("0.8", "0.8"), "silicon steel, not oriented": ("1.0", "1.1"),
        "silicon steel, grain-oriented": ("1.2", "1.3"),
    },
    # Handbooks, from memory; rectifier with capacitor from a circuit simulation (0.59) and a label rule (0.6).
    "motor_guides": {
        "universal": ("0.50", "0.70", "0.90", "0.95"), "magnet, on direct current": ("0.70", "0.85", "1", "1"),
        "split-phase": ("0.50", "0.70", "0.55", "0.75"), "capacitor-run": ("0.60", "0.75", "-", "-"),
        "rectifier with capacitor": ("-", "-", "0.59", "0.60"),
    },
    # Worked out by a separate integration (at the most); circuit simulations at 24 and 120 V (usual).
    "capacitor_input": {
        "0.3 %": ("0.3", "2.80", "2.3"), "0.9 %": ("0.9", "2.35", "2.2"), "1.8 %": ("1.8", "2.10", "2.0"), "3 %": ("3", "1.94", "1.9"),
        "6 %": ("6", "1.75", "1.7"), "12 %": ("12", "1.58", "1.55"),
    },
    # A transformer maker's page on direct-current circuits; smooth current derived.
    "rectifier_rules": {
        "bridge with capacitor": ("0.8", "1.8", "1.4"), "bridge without capacitor": ("1.1", "1.1", "1.2"),
        "centre tap with capacitor": ("-", "1.2", "-"), "bridge, smooth current": ("-", "1.00", "-"),
    },
    # An audio-kit article 0.64; a transformer spreadsheet 0.83 (A = 1.1·√P) and 1.0; square inches over 5.58, from memory.
    "core_rules": {"low": ("0.64",), "square inches": ("0.75",), "middle": ("0.83",), "high": ("1.0",)},
    # NEC Table 450.3(B): a public text on transformers; 300 % from memory.
    "transformer_fuses": {
        "primary only, 9 A and more": ("125",), "primary only, under 9 A": ("167",), "primary only, under 2 A": ("300",),
        "secondary fused at 125 %": ("250",),
    },
    # A basic switch's data sheet (6 and 10 times), NEMA MG 1 from memory (5 to 7), toroid makers' pages (8 to 15, 30 to 90).
    "inrush_multiples": {
        "induction motor, rotor held": ("5", "7"), "motor, as switches are rated": ("6", "6"), "filament lamp": ("10", "10"),
        "toroid transformer": ("8", "90"),
    },
    # Drive makers' manuals and a technical reference.
    "inverter_one_phase": {"made for one phase": ("100", "1"), "made for three phases": ("50", "2")},
    # A maker's table for DC motors; a drive maker's note for the shaft fan.
    "own_cooling": {
        "DC, open, own fan": ("60",), "DC, separate blower": ("5",), "DC, closed, no fan": ("5",),
        "DC, closed, blown over by a separate fan": ("10",), "induction, fan on its shaft": ("50",),
    },
    # Derived; the same figures in a collection of check rows, with 0 and the whole.
    "triac_output": {
        "150°": ("150", "0.170"), "135°": ("135", "0.301"), "120°": ("120", "0.442"), "90°": ("90", "0.707"),
        "60°": ("60", "0.897"), "45°": ("45", "0.953"), "30°": ("30", "0.985"), "0°": ("0", "1.000"),
    },
    # Birch plywood's 700 kg/m³ and 30 MPa on a public page on flywheels; steel's 7850 kg/m³ in a review problem; the rest,
    # and Poisson's ratio, from memory.
    "rotor_materials": {
        "mild steel": ("7850", "250", "0.30", "3"), "grey cast iron": ("7200", "150", "0.26", "20"),
        "unknown aluminium alloy": ("2700", "100", "0.33", "4"), "birch plywood": ("700", "30", "0.30", "10"),
        "medium-density fibreboard": ("750", "12", "0.25", "10"), "hardwood in one piece": ("700", "3", "0.40", "10"),
    },
    # A motor maker's instruction book, table 4; K from memory.
    "nema_supply": {"A": ("-",), "C": ("6",), "D": ("3",), "E": ("3",), "K": ("2",)},
}  # fmt: skip
