//! Sources of the day through time.

sources! {
    CAR_MASS = "car-mass", Assumption,
        "Mass of a home-built car with driver and fuel: 1400 kg (900 to 2000)";
    ROTATING = "rotating-mass", Assumption,
        "Wheels and drivetrain turning faster count as 5 % more mass when a car accelerates (3 to 10 %, more in low gears)";
    ACCELERATION = "acceleration-force", Definition,
        "Newton's second law with rotating parts counted as mass";
    FULL_LOAD_SHAPE = "full-load-shape", Assumption,
        "Full-throttle torque about flat up to the speed of the full-throttle duty, falling in a straight line towards idle below \
         a share of that speed; power constant above it; in proportion to the pressure of the air";
    LUGGING = "lugging-speed", Assumption,
        "A driver keeps the engine above a speed at which it lugs, about 1.6 times idle, in the highest gear that has the power";
    GEAR_RESERVE = "gear-reserve", Assumption,
        "A driver takes the highest gear that leaves 30 % (15 to 45 %) of full throttle in reserve";
    GEAR_STEPS = "gear-steps", Assumption,
        "Five gears, the top one by the cruise duty, each lower one slower by a factor of 1.4 (1.3 to 1.5)";
    HIGHEST_SPEED = "highest-engine-speed", Assumption,
        "Highest engine speed a tenth above that of the fastest duty point";
    SLIPPING_CLUTCH = "slipping-clutch", Definition,
        "A slipping clutch passes on torque, not power: the engine's power over the gearbox's is as their speeds";
    STOP_AND_GO = "stop-and-go", Assumption,
        "Stop and go as equal stops: standing, speeding up, holding the speed as long, slowing down as long";
    URBAN_SCHEDULE = "urban-schedule", Published,
        "US Code of Federal Regulations, title 40, part 86, appendix I (a): urban dynamometer driving schedule, 1369 s, 7.45 mi";
    HIGHWAY_SCHEDULE = "highway-schedule", Published,
        "US Code of Federal Regulations, title 40, part 600, appendix I: highway fuel economy driving schedule, 765 s, 10.26 mi";
    WORLDWIDE_CYCLE = "worldwide-cycle", Published,
        "UN Global Technical Regulation No. 15, annex 1: worldwide harmonised light vehicles test cycle, class 3b, 1800 s, 23.27 km";
    EUROPEAN_CYCLE = "european-cycle", FromMemory,
        "UN Regulation No. 83, annex 4a: four urban cycles of 195 s and 1.013 km, one extra-urban cycle of 400 s and 6.955 km";
}
