//! Sources of the ventilation elements, the network and the arrangement.

sources! {
    ISENTROPIC_ORIFICE = "isentropic-orifice", Definition,
        "Isentropic flow of an ideal gas through a hole with a discharge coefficient; critical ratio and choked value agree \
         with independent open-source libraries within 0.1 %";
    DISCHARGE = "discharge-coefficients", FromMemory,
        "ISO 5167 and handbooks: sharp edge 0.62, short tube 0.80 to 0.85, rounded 0.95 to 0.98";
    ISO_6358 = "iso-6358", FromMemory,
        "ISO 6358-1: sonic conductance C and critical ratio b, reference 1.185 kg/m³ at 293.15 K, linear above a ratio of 0.999";
    CHURCHILL = "churchill-1977", FromMemory,
        "S. W. Churchill, Friction-factor equation spans all fluid-flow regimes, Chemical Engineering 84 (1977) 91-92";
    DARCY = "darcy-weisbach", Definition,
        "Darcy-Weisbach loss with minor losses on the local velocity, density at the mean of the two end pressures";
    FITTINGS = "fitting-losses", FromMemory,
        "Entrance 0.5 to 0.57, exit 1.0, bend of 1.5 diameters about 0.33, mitre bend about 1.2, bend of 45° about two thirds of \
         one of 90°; handbook values, also computed independently with an open-source library";
    FORCHHEIMER = "darcy-forchheimer", Definition,
        "Darcy-Forchheimer law of a porous medium: a viscous and an inertial term";
    FILTER_LOADING = "filter-loading", Assumption,
        "A small filter takes 40 % (10 to 90 %) of its pressure in proportion to the flow at 60 L/min, and up to five times the \
         clean pressure when dirty or oiled; chosen by this program";
    CYLINDER_DRAG = "cylinder-across-flow", FromMemory,
        "F. M. White, Viscous Fluid Flow: drag coefficient of a cylinder across the flow about 1 + 10/Re^(2/3); here 1.8 + 10/Re, \
         within a fifth of it for Re 1 to 60";
    MESH_FIGURES = "knitted-mesh-figures", FromMemory,
        "Knitted mesh as sold for mist eliminators: wire 0.1 to 0.28 mm, 145 to 480 m² of wire in a cubic metre; how much oil adds \
         to its pressure is an assumption of this program";
    SAG = "liquid-in-a-sag", Definition,
        "A column of liquid opens at its own head, either way, and passes next to nothing below it";
    PLUNGER = "plunger-opening", Assumption,
        "Opening against depression as a smooth step; that the valve is small at idle depression, large at light load and \
         shut on backfire is described in public workshop texts, the figures are assumed";
    SPRING_BALANCE = "plunger-force-balance", Definition,
        "Balance of forces on a plunger: depression on its section against preload and rate of the spring; the pull of the \
         gas, friction and weight left out";
    ANNULUS = "plunger-ring", Definition,
        "Area of the ring between a round seat and a cone in it";
    SERIES_BENCH = "bench-in-series", Definition,
        "One mass flow through two openings in series, the second fed at the pressure the first has left";
    BACKFIRE_TIGHT = "backfire-tight", Assumption,
        "A seat that leaks no more than a hole of 0.1 mm² is called shut on backfire, chosen by this program well under the \
         gap of about 0.9 mm that a petrol flame passes at rest (IEC 60079-20-1, from memory); no certified flame arrester";
    FLOW_TABLE = "valve-flow-table", Published,
        "The user's own table of flow against depression; F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17 (1980) \
         238-246 between the points";
    VENTILATION_DEFAULTS = "ventilation-defaults", Assumption,
        "Default sizes and coefficients of the crankcase ventilation, chosen by this program";
    M_FUNCTION = "m-function", FromMemory,
        "J. M. Ortega and W. C. Rheinboldt, Iterative Solution of Nonlinear Equations in Several Variables, 1970: an \
         M-function has at most one root";
    AIR_CLEANER_DEPRESSION = "air-cleaner-depression", Assumption,
        "Clean side of an air cleaner at full throttle 1.5 kPa (0.5 to 3 kPa) below the ambient; less with the square of the air";
    PRESSURE_BANDS = "crankcase-pressure-bands", Assumption,
        "Bands of this program, set inside limits that published service manuals give for small production engines: at \
         most +1.0 kPa new and +2.5 kPa used, no lower than -3.0 to -3.5 kPa";
    LITTLE_LEFT = "little-left", Assumption,
        "Beyond seven tenths of a crankcase pressure limit little is left, chosen by this program";
    SEALS_HOLD = "what-seals-hold", Assumption,
        "Shaft seals and cover gaskets of a crankcase let go at a few kPa; beyond 10 kPa none is counted on, common practice, \
         no source";
    IDLE_AIR_SHARE = "pcv-share-of-idle-air", Assumption,
        "A PCV valve passes 5 to 20 % of the air of an idling engine, common practice, no source; above that the idle cannot \
         drop below what the valve passes";
}
