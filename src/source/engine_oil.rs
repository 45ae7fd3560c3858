//! Sources of the engine oil's heat and viscosity, and of what stands beside the coolant's balance.

sources! {
    OIL_HEAT = "oil-heat", Assumption,
        "Heat to the engine oil as a share of friction power (bearings, piston skirts) and a share of the coolant's heat \
         (under the piston crowns), together 10 to 25 % of the coolant's heat under load; more with piston jets";
    OIL_EXCHANGE = "oil-exchange", Assumption,
        "Conductance between oil and block by displacement, and from the sump to the air: still, and more with road \
         speed to the power 0.8 as of a plate in turbulent flow, at 1.15 kg/m³ of air; set so that oil runs 0 to 25 K above \
         the coolant on the road; with full throttle held it comes out 25 to 60 K above. The engine's speed is left out";
    OIL_COOLER = "oil-cooler", Assumption,
        "Heat an oil cooler carries for each kelvin: to air at 5 m/s and 1.15 kg/m³ at its face, with the root of both; or to \
         coolant; its thermostat holds its temperature exactly while the cooler has capacity to spare";
    HEAD_METAL = "head-metal", Assumption,
        "Heads of aluminium conduct three to four times as well as iron (from memory) and run cooler, so that a little \
         more heat goes to the coolant: 0 to 10 % more";
    RICH_MIXTURE = "rich-mixture", Assumption,
        "A mixture richer than just enough air releases the heat its air can burn, so more fuel for the same work and no \
         more heat; the excess fuel cools the flame a little";
    METAL_CONDUCTANCE = "metal-conductance", Assumption,
        "Metal of the chambers to coolant: 0.2 kW/K for each litre of displacement (0.12 to 0.35) at the pump's flow at \
         3000 rpm, with flow to the power 0.5 to 0.8, no less than natural convection of 12 W/K for each litre";
    HEATER_CORE = "heater-core", Assumption,
        "Heat a heater core gives to the cabin's air for each kelvin, fan on: 100 to 200 W/K of a car";
    SAE_J300 = "sae-j300", Published,
        "SAE J300, January 2015, as three public pages print it alike: least and highest viscosity at 100 °C and least \
         viscosity at high shear and 150 °C of each grade";
    OIL_GRADES = "oil-grades", FromMemory,
        "Viscosity at 100 °C and at 40 °C usual of oils sold in each grade, data sheets";
    THIN_OIL = "thin-oil", CommonPractice,
        "Oil thinner than about 5 to 6 mm²/s in the sump is counted as too thin for plain bearings under load";
    OIL_WARM_UP = "oil-warm-up", Assumption,
        "Engine with coolant and oil as two lumps that exchange heat: of the metal 0.6 warms with the coolant, 0.4 (crank, \
         rods, sump, lower block) with the oil; a minute of idle, then steady cruise; oil warm at 80 °C";
}
