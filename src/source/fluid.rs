//! Sources of the fluid part.

sources! {
    WATER_SATURATION = "iapws-sr1-86", Published,
        "IAPWS Supplementary Release SR1-86(1992), Saturation Properties of Ordinary Water Substance; W. Wagner, A. Pruss, \
         J. Phys. Chem. Ref. Data 22 (1993) 783; coefficients and check values read in public transcriptions";
    WATER_TABLE = "iapws-liquid", Definition,
        "IAPWS-IF97 (R7-97), viscosity R12-08 and thermal conductivity R15-11, tabulated with the open library iapws 1.5.5";
    SOLUTIONS = "melinder-2010", Published,
        "Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, International Institute of \
         Refrigeration, 2010, coefficients as distributed with the open library CoolProp 8.0.0";
    DILUTE_JOIN = "dilute-join", Assumption,
        "Straight line in the mass share between water (IAPWS) and the solution set at 5 % glycol";
    STRONG_JOIN = "strong-join", Assumption,
        "Straight line in the mass share between the solution set at 60 % and the pure glycol";
    PURE_GLYCOL = "pure-glycol", Definition,
        "Polynomials fitted to the DIPPR correlations in Perry's Chemical Engineers' Handbook, 8th edition, and to the \
         curves of the open library thermo 0.6.1";
    GROWTH_ABOVE_100 = "growth-above-100", Published,
        "Exponent fitted to the density ratio 98.9 to 121.1 °C of inhibited ethylene glycol (ASHRAE Handbook, \
         Fundamentals, physical properties of secondary coolants); for propylene glycol to the slope at 90 to 100 °C";
    STRAIGHT_ABOVE_100 = "straight-above-100", Assumption,
        "Straight continuation of the values at 80 and 100 °C; unchecked, good to 3 % (specific heat), 5 % (conductivity), \
         20 % (viscosity)";
    GLYCOL_VAPOUR = "dippr-101", Published,
        "DIPPR equation 101 with the coefficients of Perry's Chemical Engineers' Handbook, 8th edition, table 2-8, as \
         distributed with the open library chemicals 1.5.2";
    MIXED_VAPOUR = "margules-fit", FromMemory,
        "Raoult's law with one-constant Margules activity coefficients, fitted to modified UNIFAC (Dortmund) and to \
         handbook boiling points recalled from memory; good to 1 K below 55 % glycol by mass";
    FREEZING_ALLOWANCE = "freezing-allowance", Assumption,
        "Largest difference between the solution set and the set for inhibited ethylene glycol: 3.3 K, taken as 3 K";
    SECOND_SET = "second-density-set", Published,
        "ASHRAE Handbook, Fundamentals, physical properties of secondary coolants: inhibited glycols, as distributed with \
         the open library CoolProp 8.0.0";
    VOLUME_TO_MASS = "volume-to-mass", Definition,
        "Mass balance of volumes measured at 20 °C before mixing; densities from Perry's Chemical Engineers' Handbook, \
         8th edition, and IAPWS";
    CONCENTRATE = "concentrate-strength", Assumption,
        "Glycol in bottled concentrate, 90 to 97 % by mass";
    STANDARD_ATMOSPHERE = "iso-2533", FromMemory,
        "ISO 2533:1975, Standard Atmosphere, the same as US Standard Atmosphere 1976";
    WEATHER = "weather", Assumption,
        "Weather moves the pressure by about 3 % either way";
    AIR = "dry-air", FromMemory,
        "Dry air as an ideal gas, R = 287.05 J/(kg·K) after ISO 2533:1975; specific heat 1006 J/(kg·K) near 30 °C";
    AIR_VISCOSITY = "sutherland-air", FromMemory,
        "Sutherland's law for air with 1.716e-5 Pa·s at 273.15 K and 110.4 K, F. M. White, Viscous Fluid Flow";
    CRANKCASE_GAS = "crankcase-gas", Assumption,
        "Blow-by taken as air: R = 287.05 J/(kg·K), ratio of specific heats 1.40 for ventilation and 1.35 past the rings, \
         90 °C (60 to 130 °C)";
}
