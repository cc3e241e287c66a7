"""The two invented rigs, as their sheets would be filled in, and an old sheet of the second one that is wrong.

The numbers belong to no real unit. `TWELVE_OLD` dates from before the elevator was changed: its travelling weight is
5,250 lb short.
"""

SEVEN = {
    "mast_rating": "500 klbf", "clear_height": "142 ft", "setback_rating": "300 klbf", "combined_rating": "800 klbf",
    "lines_strung": "10", "line_size": "1.25 in", "line_strength": "159800 lbf", "drum_diameter": "30 in",
    "crown_tread": "40 in", "travelling_weight": "21000 lb", "links_rating": "250 st", "tool_rating": "250 st",
    "tong_arm": "4.25 ft", "hook_load": "185.84 klbf", "stand_length": "93.6 ft", "pipe_weight": "18.8 lb/ft",
    "pipe_bore": "3.826 in", "make_up_torque": "20000 ft·lbf", "mud_weight": "9.8 lb/gal",
}  # fmt: skip
TWELVE = {
    "mast_rating": "750 klbf", "clear_height": "152 ft", "setback_rating": "500 klbf", "combined_rating": "1250 klbf",
    "lines_strung": "12", "line_size": "1.375 in", "line_strength": "192000 lbf", "drum_diameter": "36 in",
    "crown_tread": "50 in", "travelling_weight": "44500 lb", "links_rating": "500 st", "tool_rating": "350 st",
    "hook_load": "314.91 klbf", "stand_length": "95.1 ft", "pipe_weight": "23.5 lb/ft", "pipe_bore": "4.276 in",
    "make_up_torque": "28000 ft·lbf", "mud_weight": "12 lb/gal",
}  # fmt: skip
TWELVE_OLD = TWELVE | {"travelling_weight": "39250 lb"}
