//! Sources of the bodies a day through time is reckoned with.

sources! {
    BODIES = "day-bodies", Assumption,
        "Car as bodies of one temperature each (hot metal, coolant, block, oil, radiator, heater with hoses), not validated; heat \
         capacities and conductances for each litre of displacement";
    FORCED_CONVECTION = "day-forced-convection", Assumption,
        "Conductances of a running engine and in the wind grow with a power of speed, as in turbulent forced convection \
         (Dittus and Boelter: 0.8)";
    WAX = "day-wax", Assumption,
        "Wax thermostat that follows the coolant with one time constant and opens and shuts along two lines";
    STANDING_RADIATOR = "day-standing-radiator", Assumption,
        "Coolant that stands in a radiator keeps a share of its conductance, in a draught of its own where no wind blows";
    TANK_AND_HOSES = "day-tank-and-hoses", Assumption,
        "Hoses, tank and block in still air: 8 to 12 W/(m²·K) by natural convection and radiation, on their surfaces";
    DRY_HEADS = "day-dry-heads", Assumption,
        "With more than a fifth of the engine's coolant gone its heads stand dry, and a bulk temperature says nothing of them";
    OIL_WARM = "day-oil-warm", CommonPractice,
        "Oil counts as warm at 80 °C (60 to 90); common practice";
}
