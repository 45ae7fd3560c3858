//! Sources of the cylinder pressure and the blow-by.

sources! {
    HEYWOOD_ENGINE = "heywood-engine", FromMemory,
        "J. B. Heywood, Internal Combustion Engine Fundamentals, 1988: slider crank (ch. 2), Wiebe burn law with a = 5, m = 2 (ch. 9)";
    BRUNT_GAMMA = "brunt-1998", FromMemory,
        "M. F. J. Brunt, H. Rai, A. L. Emtage, The Calculation of Heat Release Energy from Engine Cylinder Pressure Data, SAE 981052, 1998";
    CREVICE_GAS = "namazian-heywood-1982", FromMemory,
        "M. Namazian, J. B. Heywood, Flow in the Piston-Cylinder-Ring Crevices of a Spark-Ignition Engine, SAE 820088, 1982";
    ISENTROPIC_HOLE = "isentropic-hole", Definition,
        "Isentropic flow of an ideal gas through a small hole with choking; agrees with a real-gas nozzle within 0.1 %";
    CYCLE_FIGURES = "cycle-figures", Assumption,
        "Typical burn, residual gas, charge temperature, wall heat and gas exchange of an otto engine at five duties";
    TWO_STAGE_BURN = "miyamoto-1985", FromMemory,
        "N. Miyamoto, T. Chikahisa, T. Murayama, R. Sawyer, Description and Analysis of Diesel Engine Rate of Combustion and \
         Performance Using Wiebe's Functions, SAE 850107, 1985: two stages, a = 6.9, m = 3 over about 7° and m = 0.9";
    DIESEL_FIGURES = "diesel-figures", Assumption,
        "Typical burn, premixed share, charge temperature, wall heat, air-fuel ratio and heating value of a road diesel at five duties";
    COMPRESSOR = "compressor", Definition,
        "Temperature behind a compressor of isentropic efficiency η with air of κ = 1.4, and behind a cooler of effectiveness ε";
    BOOST_FIGURES = "boost-figures", Assumption,
        "Boost, blower efficiency, charge cooling and pressure before the turbine of road engines, chosen by this program";
    TURBO_LEAK = "turbo-leak", Assumption,
        "Gas past the shaft seals of a turbocharger into its oil drain, a tenth to a third of the blow-by of the rings, common \
         practice, no source";
    BLOW_BY_SHARE = "blow-by-share", Assumption,
        "Share of the intake flow and flow for each kilowatt by condition, chosen inside published marks: 0.2 to 1 % of the \
         intake flow (FISITA CAR20051039, abstract), 0.5 to 2 % (public encyclopaedia), 1 cfm for each 50 hp (motoring article)";
    LEAK_DOWN_TEST = "leak-down-test", Published,
        "FAA AC 43.13-1B, ch. 8: differential compression test, restrictor 0.040 in for bores below 5.00 in, 0.060 in from there; \
         supply 80 psi (from memory)";
    LEAK_DOWN_FIGURES = "leak-down-figures", Assumption,
        "Restrictor discharge, share past the rings, running against standing leak, and losses to expect by condition";
    METER = "blow-by-meter", Assumption,
        "A flow meter fed with pulsing, oily crankcase gas reads within a tenth, common practice, no source";
    OTHER_LOAD = "leak-at-another-load", Assumption,
        "Rings seat harder and gaps close with load, so that a leak area known at one load is only near that of another: \
         from idle to full throttle within a fifth, no source";
    RING_FIGURES = "ring-figures", Assumption,
        "Ring gaps and land clearance as shares of the bore, side leakage, wear and running temperatures";
    RING_EXPANSION = "ring-expansion", FromMemory,
        "Thermal expansion of grey iron (11e-6 /K) and of a piston alloy (20.5e-6 /K), materials handbooks";
    RING_DISCHARGE = "ring-discharge", FromMemory,
        "Discharge coefficient of a ring gap, 0.6 to 0.9; 0.86 is used in the ring-gas-flow literature";
}
