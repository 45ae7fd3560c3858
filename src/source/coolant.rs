//! Sources of the coolant part.

sources! {
    GEOMETRY = "tank-geometry", Definition,
        "Volume of a cylinder, of the segment of a circle, and of a box with leaning sides: plane geometry";
    DIP_TABLE = "dip-table", Definition,
        "Heights and volumes measured on the tank itself, joined by a monotone cubic";
    TILTED_SURFACE = "tilted-surface", Definition,
        "Hydrostatics: the surface of a liquid at rest in the car is a plane square to apparent gravity, at constant volume";
    MASS_BALANCE = "coolant-mass-balance", Definition,
        "Balance of coolant mass between the parts of the system and the tank";
    GAS_LAW = "trapped-gas-law", Definition,
        "Ideal gas law for the trapped air, with vapour at the bubble pressure of the coolant; dissolved air neglected";
    HYDROSTATICS = "hydrostatics", Definition, "Hydrostatics: the pressure of a column of liquid is ρ g h";
    CAP_SEAT = "cap-seat", Definition, "Balance of forces at the cap's seats: a valve opens by the difference across it";
    ERROR_SUM = "one-at-a-time", Definition,
        "Each uncertain input moved alone to its low and high value; the changes added as the root of their squares";
    METAL_EXPANSION = "metal-expansion", FromMemory,
        "Linear thermal expansion of grey iron, cast aluminium, copper and brass: handbook ranges, quoted from memory";
    HOSE_SWELL = "hose-swell", Assumption,
        "Coolant hose grows by about 3 % of its volume per 100 kPa (1 to 6 %); no source was found";
    TRAPPED_AIR = "trapped-air", Assumption, "Air left after filling and bleeding: 0.1 L (0 to 0.5 L)";
    FILL_SHARES = "fill-shares", Assumption,
        "Engine 50 %, radiator 33 %, heater and hoses 17 % of the fill; each within 10 points";
    PART_TEMPERATURES = "part-temperatures", Assumption,
        "Mean temperatures of the parts below the engine's: radiator 9 K (5 to 15), heater and hoses 5 K (0 to 10), \
         header tank 6 K (0 to 10)";
    TANK_TEMPERATURE = "tank-temperature", Assumption, "Coolant in the overflow tank: 50 °C (30 to 90 °C)";
    HOT_DOUBT = "hot-temperature-doubt", Assumption, "Hot temperatures of the parts are known within 5 K";
    MIX_DOUBT = "mixture-doubt", Assumption, "The glycol mass fraction is known within 3 points";
    PROPYLENE_ABOVE_100 = "propylene-above-100", Assumption,
        "Growth of propylene glycol mixtures above 100 °C is extrapolated; nothing to compare with was found: ±15 %";
    CAP_TOLERANCE = "cap-tolerance", Published,
        "Public service texts: a cap of the 108 kPa class tests new at 93 to 123 kPa (about ±14 %) and is replaced below \
         79 kPa (−27 %); another allows ±10 % of the rating";
    VACUUM_VALVE = "vacuum-valve", Assumption, "The cap's vacuum valve opens at 5 kPa (1 to 10 kPa)";
    RETURN_SUCTION = "return-suction", Assumption,
        "Soft hoses begin to draw in at about 10 kPa below the ambient and collapse at about 30 kPa";
    LINE_LOSS = "return-line-loss", Assumption, "Loss in the return line while the engine cools: 0.2 kPa (0 to 1 kPa)";
    CUSHION_RULE = "cushion-rule", Assumption,
        "Air cushion of a header tank chosen so that the hot pressure stays at or below 85 % of the cap's opening";
    SEALED_LID = "sealed-lid", CommonPractice,
        "An overflow can with a sealed lid builds pressure as coolant comes in and works against the cap; a hole in the \
         lid cures it: common practice, no source";
    LOW_TANK = "low-tank", CommonPractice,
        "A tank below the filler neck works if the vacuum on cooling lifts the return: common practice, no source";
    TILT_TESTS = "tilt-tests", Assumption,
        "The tube is tried at 0.5 g fore and aft, 0.8 g to each side and 0.8 g braking, and must stay 5 mm deep";
    LEAKAGE_RESERVE = "leakage-reserve", Assumption, "Reserve against leakage: 5 % of the fill and at least 0.2 L";
    SURGE_SHARE = "surge-share", Assumption,
        "Room for coolant pushed out by boiling after shutdown: 4 % of the fill (2 to 10 %) unless worked out";
    HEADROOM_MARGIN = "headroom-margin", Assumption, "Margin on the tank's volume: 10 %";
    HOLE_DISCHARGE = "hole-discharge", FromMemory,
        "Discharge coefficient of a sharp-edged hole: 0.60 (0.55 to 0.65), handbooks of fluid mechanics";
    TUBE_FRICTION = "tube-friction", FromMemory,
        "Darcy friction in a smooth tube: 64/Re (Hagen and Poiseuille) or 0.316/Re^0.25 (Blasius), whichever is more, \
         with entrance 0.5 and exit 1";
    NOZZLE_FLOW = "nozzle-flow", FromMemory,
        "Isentropic flow of a perfect gas through an opening, choked below the critical pressure ratio: textbooks of gas \
         dynamics; air γ 1.4, steam γ 1.3";
    STEAM_VISCOSITY = "steam-viscosity", FromMemory, "Steam near 100 °C: viscosity 1.2e-5 Pa·s (1.2 to 1.3)";
    HOSE_DISCHARGE = "overflow-hose-discharge", Assumption, "Discharge coefficient of the overflow hose under choked steam: 0.8 (0.7 to 0.9)";
    FLASHING = "flashing", Assumption,
        "Liquid leaving the cap flashes to equilibrium at the ambient and moves as one homogeneous mixture; within a factor of 2";
    CAN_STRENGTH = "can-strength", Assumption,
        "Gauge pressure a can may see: thin plastic or sheet 2 kPa (1 to 5), fabricated with a lid 10 kPa, unless its maker gives a figure";
    LIFT_BY_BOILING = "lift-by-boiling", Definition,
        "Each litre of steam made in the engine pushes a litre of coolant past the cap until the passages are empty";
    AFTER_HEAT = "after-heat", Assumption, "Heat that boils coolant after a hard shutdown: 3 kW (1 to 5 kW)";
    WARM_UP_TIME = "warm-up-time", Assumption, "Warm-up from cold to hot: 8 min (5 to 15 min)";
    LOCAL_EXCESS = "local-excess", Assumption,
        "The hottest passage lies 8 K (5 to 15 K) above the engine's outlet temperature";
    BOILING_ALLOWANCE = "boiling-allowance", Assumption, "Allowance kept below boiling in any design: 3 K";
    PUMP_SUCTION = "pump-suction", Assumption, "The pump's inlet lies 20 kPa (10 to 30 kPa) below the system at high speed";
    FLASHING_HOSE = "flashing-hose", FromMemory,
        "J. C. Leung, A generalized correlation for one-component homogeneous equilibrium flashing choked flow, AIChE \
         Journal 32 (1986) 1743-1746: the omega method for saturated liquid";
    HOSE_LIQUID = "hose-liquid", FromMemory,
        "Darcy–Weisbach with the friction factor of H. Blasius (1913) for smooth pipes, entrance 0.5 and exit 1.0";
}
