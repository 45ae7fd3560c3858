//! Sources of the heat part.

sources! {
    THERMOSTAT_SETTINGS = "thermostat-settings", CommonPractice,
        "Nominal start-to-open settings of engine coolant thermostats, 160 to 195 °F; common practice";
    THERMOSTAT_SPAN = "thermostat-span", Assumption,
        "Wax thermostat: lift proportional to temperature over a span above start-to-open, with tolerance and closing lag";
    THERMOSTAT_FLOW = "thermostat-flow", Assumption,
        "Thermostat as an orifice in series with the rest of the loop, resistance going with one over the opening squared: \
         wide open it makes up 30 % (10 to 100 %). An opening of about 400 mm² takes some 12 kPa at 2 L/s, of 30 to 60 kPa of \
         the loop; a half open one then lets 73 % pass";
    LOUVRED_FINS = "chang-wang-1997", FromMemory,
        "Y.-J. Chang and C.-C. Wang, A generalized heat transfer correlation for louver fin geometry, International Journal \
         of Heat and Mass Transfer 40 (1997) 533–544: j of 91 cores, nine in ten within 15 %";
    LAMINAR_DUCT = "laminar-duct", FromMemory,
        "R. K. Shah and A. L. London, Laminar Flow Forced Convection in Ducts (1978): rectangular ducts, walls of one \
         temperature; entrance after K. Stephan (1959), parallel plates";
    GNIELINSKI = "gnielinski", FromMemory,
        "V. Gnielinski (1976), turbulent heat transfer in tubes, and straight in the Reynolds number from 2300 to 4000 \
         (VDI Heat Atlas, section G1)";
    FIN_EFFICIENCY = "fin-efficiency", FromMemory,
        "Straight fin with adiabatic tip, F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, extended \
         surfaces";
    CORE_DOUBT = "core-doubt", Assumption,
        "How far a core may lie from the correlations: air side ±15 %, coolant side ±10 %, scale, dust and bond of the fins \
         0 to 15 % more resistance";
    CORE_SIZES = "core-sizes", Assumption,
        "Louvres of a car radiator, conductivity of its metals, pressure its core takes of the air";
    FAN_LAWS = "fan-laws", Definition,
        "Laws of similar fans: flow with speed, pressure with speed squared and with density; table in air of 1.2 kg/m³ \
         (ISO 5801); fans side by side share the flow";
    FAN_SWITCH = "fan-switch", Assumption,
        "Thermostatic switch at the engine's outlet: on about 10 K above the thermostat's setting, off 5 K lower";
    FAN_FITTING = "fan-fitting", Assumption,
        "Share of the core a fan draws through without a shroud: 1.3 (1.0 to 1.7) times the area it sweeps";
    CROSSFLOW = "crossflow-effectiveness", FromMemory,
        "F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, table of effectiveness relations: \
         single-pass cross-flow, both fluids unmixed (approximate); agrees with the open library ht to 1e-6";
    DITTUS_BOELTER = "dittus-boelter", FromMemory,
        "F. W. Dittus and L. M. K. Boelter (1930), turbulent heat transfer in tubes, exponents of flow and properties";
    RADIATOR_SCALING = "radiator-scaling", Assumption,
        "Radiator conductance split into an air-side share (mass flow to the power 0.5, 0.3 to 0.6) and a coolant-side share \
         (velocity to the power 0.8)";
    RADIATOR_CLASS = "radiator-class", Assumption,
        "Radiator conductance, frontal area and pump flow typical of a class of car; calibrate with one steady measurement";
    FACE_VELOCITY = "face-velocity", Assumption,
        "Face velocity from a ram share of road speed, a fan and the radiator's own draught, combined as the root of the sum of \
         squares";
    DRAUGHT = "radiator-draught", Assumption,
        "A hot radiator draws air through itself at 0.15 m/s (0.05 to 0.3) with neither wind nor fan";
    RECIRCULATION = "recirculation", Assumption,
        "Radiator inlet air above ambient at standstill, fading out with road speed";
    FRICTION = "friction-mean-pressure", FromMemory,
        "J. B. Heywood, Internal Combustion Engine Fundamentals, motored friction of small four-cylinder engines: \
         fmep = 97 + 15 (N/1000) + 5 (N/1000)², kPa";
    FRICTION_DIESEL = "diesel-friction-mean-pressure", FromMemory,
        "J. B. Heywood, Internal Combustion Engine Fundamentals, motored friction of diesels: 75 (direct) to 144 (indirect \
         injection) + 48 (N/1000) + 0.4 Sp², kPa, Sp the mean piston speed in m/s";
    HEATING_VALUE_DIESEL = "diesel-fuel-heating-value", FromMemory,
        "Lower heating value of diesel fuel 42.6 MJ/kg (42 to 43.2), handbooks of internal combustion engines";
    MEAN_PRESSURE_DIESEL = "diesel-brake-mean-pressure", FromMemory,
        "Brake mean effective pressure of diesels without a blower at sea level: 6 to 8 bar, 10 bar at the very most, handbooks \
         of internal combustion engines; in proportion to the pressure in the manifold";
    COOLANT_SHARE = "coolant-share", Assumption,
        "Share of fuel energy carried by the coolant, light load to rated; J. B. Heywood, Internal Combustion Engine \
         Fundamentals, energy balance at maximum power: spark ignition 17–26 %, diesel 16–35 %";
    INDICATED_EFFICIENCY = "indicated-efficiency", Assumption,
        "Indicated efficiency of spark-ignition and diesel engines used to reckon fuel power from shaft power";
    IDLE_HEAT = "idle-heat", Assumption,
        "Heat to the coolant of a warm engine at idle, by class";
    ROAD_LOAD = "road-load", Definition,
        "Power on the road: rolling, climbing and air drag over drivetrain efficiency";
    ROAD_DEFAULTS = "road-defaults", CommonPractice,
        "Rolling resistance, drag area and drivetrain efficiency of a passenger car; common practice";
    FUEL_CONSUMPTION = "specific-fuel-consumption", FromMemory,
        "Brake specific fuel consumption of spark-ignition engines: full throttle 0.28–0.31, hill 0.28, cruise \
         0.32–0.40 kg/(kW·h); stoichiometric air to petrol 14.7";
    HEATING_VALUE = "petrol-heating-value", FromMemory,
        "Lower heating value of petrol 44 MJ/kg (42 to 44), handbooks of internal combustion engines";
    MEAN_PRESSURE = "brake-mean-pressure", FromMemory,
        "Brake mean effective pressure of petrol engines without a blower at sea level: 8 to 11 bar on the road, 12 to \
         14 bar in racing, handbooks of internal combustion engines; in proportion to the pressure of the air";
    MANIFOLD = "speed-density", Definition,
        "Manifold pressure from air flow by the speed-density relation of a four-stroke engine, ideal gas";
    MANIFOLD_DEFAULTS = "manifold-defaults", Assumption,
        "Volumetric efficiency on manifold density, intake temperature, usual manifold pressures at idle, overrun and \
         full throttle";
    WARM_UP = "warm-up", Assumption,
        "Engine as one lump of metal and coolant: effective heat capacity and conductance to the surrounding air";
    HOT_METAL = "hot-metal", Assumption,
        "Metal around the coolant hotter than it: 2.5 kJ/K for each litre of displacement (2 to 3.2), a tenth more with \
         aluminium heads, at 150 °C (130 to 185 °C) when the engine stops";
    WALTHER = "astm-d341", FromMemory,
        "ASTM D341 (Walther), log log (ν + 0.7) = A − B log T, ν above 2 mm²/s";
    SOAK_BOUND = "soak-bound", Definition,
        "Heat of hot metal and coolant shared evenly, no loss to the air: an upper bound of the temperature after a hot stop";
}
