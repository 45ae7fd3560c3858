//! Sources of moisture, oil carry-over, drain-back and the valve's share of the mixture.

sources! {
    BURNING = "burnt-gas-balance", Definition,
        "Balance of carbon, hydrogen and oxygen with dry air of 3.773 N₂ (argon with it) for each O₂";
    WATER_GAS = "water-gas-constant", FromMemory,
        "J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, ch. 4: rich exhaust holds CO·H₂O/(CO₂·H₂) \
         near 3.5";
    DIESEL = "diesel-composition", FromMemory,
        "Hydrogen for each carbon atom in diesel fuel, 1.75 to 1.95, 1.85 usual; just enough air is 14.5 of it by mass";
    PETROL = "petrol-composition", FromMemory,
        "Hydrogen for each carbon atom in petrol, 1.7 to 2.1, 1.87 usual; oxygen up to 0.03 with 10 % ethanol";
    MAGNUS = "wmo-magnus", FromMemory,
        "WMO-No. 8, Guide to Instruments and Methods of Observation, annex on humidity: 6.112 \
         hPa·exp(22.46·t/(272.62 + t)) over ice, −65 to 0 °C, and 6.112 hPa·exp(17.62·t/(243.12 + t)) over water, \
         −45 to 60 °C; relative humidity counts over water also below 0 °C";
    GAS_MIX = "crankcase-mix", Definition,
        "Balance of water in burnt blow-by, unburnt blow-by and fresh air; moles taken as mass, burnt gas and air \
         differ by less than 1 %";
    BURNT_SHARE = "burnt-share", FromMemory,
        "Blow-by is mostly unburnt charge; its burnt share is put at 0.2 to 0.5 in the engine literature, all \
         burnt is the worst";
    CRANKCASE_WARMTH = "crankcase-warmth", Assumption,
        "The wall of a cover or can takes 0.5 to 0.85 of the way from the air to the oil; water and fuel leave oil of \
         90 °C and more";
    TRIP_WARMTH = "short-trip-oil", Assumption,
        "Oil of an engine started cold is 30 to 75 % of the way from the outside air to that of the warm engine after a \
         few kilometres, chosen by this program; it lags well behind the coolant";
    PETROL_HEAVY = "petrol-heavy-cuts", Assumption,
        "Of the molecules of petrol 12, 7, 4, 1.5 and 0.5 % count as n-octane to n-dodecane: a tenth boils above about \
         155 °C and the last at some 200 °C, as petrol of the trade does (EN 228 asks for an end below 210 °C, from \
         memory); 6.8 to 8 carbon atoms in a molecule, from memory";
    RAOULT = "raoult-dew-point", Definition,
        "Dew point of an ideal solution after Raoult: the partial pressures over the saturation pressures add up to one";
    HOSE_WALL = "hose-wall", Assumption,
        "The wall of a breather or valve hose takes 0.25 to 0.7 of the way from the air to the oil: thin and in the wind, or \
         lying on the engine, chosen by this program";
    CAN_WALL = "can-wall", Assumption,
        "The wall of a catch can takes 0.1 to 0.6 of the way from the air to the oil: in the wind before the engine, or \
         close to it, chosen by this program";
    PETROL_CUTS = "dippr-101-alkanes", Published,
        "DIPPR equation 101 with the coefficients of Perry's Chemical Engineers' Handbook, 8th edition, table \
         2-8, as distributed with the open library chemicals 1.5.2; n-octane to n-dodecane stand for the cuts of \
         petrol that stay in oil";
    STOKES = "stokes-settling", Definition,
        "Stokes' law of a falling droplet, for Reynolds numbers well below 1";
    SCHILLER_NAUMANN = "schiller-naumann", FromMemory,
        "L. Schiller and A. Naumann, drag of a sphere: 24/Re·(1 + 0.15·Re^0.687) up to Re 800, VDI-Zeitschrift \
         1933";
    SOUDERS_BROWN = "souders-brown", FromMemory,
        "M. Souders and G. G. Brown, Industrial and Engineering Chemistry 26 (1934) 98: K·√((ρl − ρg)/ρg); K \
         0.107 m/s for knitted mesh is seen in public handbooks";
    CAN_FIGURES = "can-figures", Assumption,
        "Souders-Brown factors of an open and a baffled can, share of the oil each catches, smallest can, rests \
         to leave";
    WINTER_AIR = "winter-air", Assumption,
        "Relative humidity of the air on a cold morning, 60 to 100 %, chosen by this program; cold air holds little \
         water at any humidity";
    DRAIN_HEIGHT = "drain-height", Assumption,
        "Height from the floor of a valve cover down to the oil that closes its drain, 100 to 350 mm from an engine \
         lying low to one standing tall, chosen by this program";
    IMPACTION = "hinds-impaction", FromMemory,
        "W. C. Hinds, Aerosol Technology: half the droplets strike at a Stokes number of 0.24 for a round jet, \
         0.59 for a slot";
    CARRY_OVER = "oil-carry-over", Assumption,
        "0.5 to 5 g/h from car engines (from memory), 2 to 15 g/h from heavy diesel engines (FISITA CAR20051039); \
         5 to 10 times as much when worn or on a track and the growth with gas speed are assumptions of this \
         program";
    GAS_SPEEDS = "crankcase-gas-speeds", Assumption,
        "Below 1 m/s where oil is to settle or to run down against gas, below 3 m/s at the mouth of the outlet";
    OIL_DENSITY = "warm-oil-density", FromMemory,
        "Engine oil has 860 to 890 kg/m³ at 15 °C and 810 to 850 kg/m³ at 60 to 120 °C";
    HEAD = "hydrostatic-head", Definition,
        "Pressure of a standing column, ρ g h";
    CONDENSATE = "condensate-balance", Definition,
        "Balance of water between a gas and the same gas saturated at the wall";
    MIXTURE = "idle-mixture-balance", Definition,
        "Balance of air and fuel at idle with the gas that enters by the PCV valve";
    IDLE_SHARE = "idle-air-share", Assumption,
        "The PCV valve passes 5 to 20 % of the idle air";
    TOO_LEAN = "idle-too-lean-to-fire", CommonPractice,
        "A cylinder that idles a third leaner than it was set for does not fire";
    PORTS = "valve-port-practice", CommonPractice,
        "Where the hose of a PCV valve joins the intake, and what shuts it against backfire and boost";
}
