//! The units a person may type or read, with their exact factors.

use super::{DEGREE, GRAVITY, Kind, RPM, ZERO_CELSIUS};

/// One unit of measure: how it is written and how it relates to the coherent SI unit.
///
/// `value in SI = (value in this unit + shift) · factor`; the shift is zero except for temperatures.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// The spelling the program writes.
    pub symbol: &'static str,
    /// Other spellings it reads.
    pub also: &'static [&'static str],
    /// SI units in one of this unit.
    pub factor: f64,
    /// Added before multiplying; only temperatures use it.
    pub shift: f64,
}

impl Unit {
    /// From this unit to the coherent SI unit.
    #[must_use]
    pub fn to_base(&self, value: f64) -> f64 {
        (value + self.shift) * self.factor
    }

    /// From the coherent SI unit to this unit.
    #[must_use]
    pub fn from_base(&self, base: f64) -> f64 {
        base / self.factor - self.shift
    }
}

const fn unit(symbol: &'static str, also: &'static [&'static str], factor: f64) -> Unit {
    Unit { symbol, also, factor, shift: 0.0 }
}

// Factors: NIST Special Publication 811 (2008), appendix B; the inch, pound, gallon and calorie are exact there.
const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const GALLON: f64 = 231.0 * INCH * INCH * INCH;
const POUND: f64 = 0.453_592_37;
const POUND_FORCE: f64 = POUND * GRAVITY;
const PSI: f64 = POUND_FORCE / (INCH * INCH);
const INCH_WATER: f64 = 249.088_91;
const BTU: f64 = 2326.0 * POUND;
const HORSEPOWER: f64 = 550.0 * FOOT * POUND_FORCE;

static LENGTH: [Unit; 9] = [
    unit("m", &["metre", "meter", "metres", "meters"], 1.0),
    unit("mm", &["millimetre", "millimeter", "millimetres", "millimeters"], 1e-3),
    unit("cm", &["centimetre", "centimeter"], 1e-2),
    unit("µm", &["um", "μm", "micron", "microns"], 1e-6),
    unit("km", &["kilometre", "kilometer"], 1e3),
    unit("in", &["inch", "inches", "\"", "″"], INCH),
    unit("ft", &["foot", "feet", "'", "′"], FOOT),
    unit("thou", &["mil"], INCH * 1e-3),
    unit("mi", &["mile", "miles"], 5280.0 * FOOT),
];
static AREA: [Unit; 5] = [
    unit("m²", &["m2", "m^2"], 1.0),
    unit("mm²", &["mm2", "mm^2"], 1e-6),
    unit("cm²", &["cm2", "cm^2"], 1e-4),
    unit("in²", &["in2", "in^2", "sq in"], INCH * INCH),
    unit("ft²", &["ft2", "ft^2", "sq ft"], FOOT * FOOT),
];
static VOLUME: [Unit; 9] = [
    unit("m³", &["m3", "m^3"], 1.0),
    unit("L", &["l", "litre", "liter", "litres", "liters", "dm³", "dm3"], 1e-3),
    unit("mL", &["ml", "cc", "cm³", "cm3", "cm^3"], 1e-6),
    unit("qt", &["quart", "quarts", "us qt"], GALLON / 4.0),
    unit("pt", &["pint", "pints"], GALLON / 8.0),
    unit("gal", &["gallon", "gallons", "us gal"], GALLON),
    unit("imp gal", &["imperial gallon"], 4.546_09e-3),
    unit("fl oz", &["floz", "fluid ounce", "fluid ounces"], GALLON / 128.0),
    unit("in³", &["in3", "in^3", "cu in", "ci", "cid"], INCH * INCH * INCH),
];
static MASS: [Unit; 4] = [
    unit("kg", &[], 1.0),
    unit("g", &[], 1e-3),
    unit("lb", &["lbs", "pound", "pounds"], POUND),
    unit("oz", &["ounce", "ounces"], POUND / 16.0),
];
static MASS_FLOW: [Unit; 6] = [
    unit("kg/s", &[], 1.0),
    unit("g/s", &[], 1e-3),
    unit("g/min", &[], 1e-3 / 60.0),
    unit("kg/h", &[], 1.0 / 3600.0),
    unit("g/h", &[], 1e-3 / 3600.0),
    unit("lb/min", &[], POUND / 60.0),
];
static VOLUME_FLOW: [Unit; 8] = [
    unit("m³/s", &["m3/s"], 1.0),
    unit("L/s", &["l/s"], 1e-3),
    unit("L/min", &["l/min", "lpm"], 1e-3 / 60.0),
    unit("mL/s", &["ml/s"], 1e-6),
    unit("mL/h", &["ml/h", "cm³/h"], 1e-6 / 3600.0),
    unit("m³/h", &["m3/h"], 1.0 / 3600.0),
    unit("cfm", &["ft³/min", "ft3/min"], FOOT * FOOT * FOOT / 60.0),
    unit("gpm", &["gal/min"], GALLON / 60.0),
];
static DENSITY: [Unit; 4] = [
    unit("kg/m³", &["kg/m3"], 1.0),
    unit("g/cm³", &["g/cm3", "kg/L", "kg/l"], 1e3),
    unit("lb/ft³", &["lb/ft3"], POUND / (FOOT * FOOT * FOOT)),
    unit("lb/gal", &[], POUND / GALLON),
];
static SPECIFIC_HEAT: [Unit; 3] = [
    unit("J/(kg·K)", &["J/(kg K)", "J/kg/K", "J/kgK"], 1.0),
    unit("kJ/(kg·K)", &["kJ/(kg K)", "kJ/kg/K", "kJ/kgK"], 1e3),
    // The international table British thermal unit: 1 Btu/(lb·°F) is 4186.8 J/(kg·K) exactly.
    unit("Btu/(lb·°F)", &["Btu/(lb °F)", "Btu/lb/F"], 4186.8),
];
static SPECIFIC_ENERGY: [Unit; 3] = [unit("J/kg", &[], 1.0), unit("kJ/kg", &[], 1e3), unit("Btu/lb", &[], 2326.0)];
static VISCOSITY: [Unit; 3] =
    [unit("Pa·s", &["Pa s"], 1.0), unit("mPa·s", &["mPa s", "cP"], 1e-3), unit("µPa·s", &["uPa s", "µPa s"], 1e-6)];
static CONDUCTIVITY: [Unit; 2] = [
    unit("W/(m·K)", &["W/(m K)", "W/m/K", "W/mK"], 1.0),
    unit("Btu/(h·ft·°F)", &["Btu/(h ft °F)"], 2326.0 * POUND / (3600.0 * FOOT) * 1.8),
];
static POWER: [Unit; 4] = [
    unit("W", &[], 1.0),
    unit("kW", &[], 1e3),
    unit("hp", &["bhp"], HORSEPOWER),
    unit("PS", &["ps", "metric hp"], 75.0 * GRAVITY),
];
static SPEED: [Unit; 5] = [
    unit("m/s", &[], 1.0),
    unit("km/h", &["kph", "kmh"], 1.0 / 3.6),
    unit("mph", &["mi/h"], 5280.0 * FOOT / 3600.0),
    unit("ft/s", &["fps"], FOOT),
    unit("ft/min", &["fpm"], FOOT / 60.0),
];
static ACCELERATION: [Unit; 2] = [unit("m/s²", &["m/s2", "m/s^2"], 1.0), unit("g", &["gn", "g_n", "g₀"], GRAVITY)];
static ROTATION: [Unit; 2] = [unit("rad/s", &[], 1.0), unit("rpm", &["rev/min", "1/min", "/min", "r/min"], RPM)];
static TIME: [Unit; 4] = [
    unit("s", &["sec", "second", "seconds"], 1.0),
    unit("min", &["minute", "minutes"], 60.0),
    unit("h", &["hour", "hours", "hr"], 3600.0),
    unit("ms", &[], 1e-3),
];
static ANGLE: [Unit; 2] = [unit("rad", &[], 1.0), unit("°", &["deg", "degree", "degrees"], DEGREE)];
static RATIO: [Unit; 1] = [unit("", &["1", "-"], 1.0)];
static SHARE: [Unit; 2] = [unit("of one", &["1"], 1.0), unit("%", &["percent", "per cent"], 0.01)];
static TEMPERATURE: [Unit; 3] = [
    Unit { symbol: "K", also: &["kelvin"], factor: 1.0, shift: 0.0 },
    Unit { symbol: "°C", also: &["C", "degC", "deg C", "ºC", "° C", "℃"], factor: 1.0, shift: ZERO_CELSIUS },
    Unit { symbol: "°F", also: &["F", "degF", "deg F", "ºF", "° F", "℉"], factor: 5.0 / 9.0, shift: 459.67 },
];
static TEMPERATURE_DIFFERENCE: [Unit; 2] =
    [unit("K", &["kelvin", "°C", "C", "degC", "ºC", "Δ°C"], 1.0), unit("°F", &["F", "degF", "ºF", "Δ°F"], 5.0 / 9.0)];
static PRESSURE: [Unit; 8] = [
    unit("Pa", &[], 1.0),
    unit("kPa", &[], 1e3),
    unit("bar", &[], 1e5),
    unit("mbar", &["hPa"], 1e2),
    unit("psi", &["lbf/in²", "lb/in2"], PSI),
    unit("inH2O", &["inH₂O", "in H2O", "in H₂O", "inwc", "in wc"], INCH_WATER),
    unit("mmH2O", &["mmH₂O", "mm H2O", "mm H₂O", "mmwc"], GRAVITY),
    unit("inHg", &["in Hg"], 3386.389),
];
static CONDUCTANCE: [Unit; 2] = [unit("W/K", &["W/°C"], 1.0), unit("kW/K", &[], 1e3)];
static HEAT_TRANSFER: [Unit; 2] = [
    unit("W/(m²·K)", &["W/(m2 K)", "W/m²K"], 1.0),
    unit("Btu/(h·ft²·°F)", &["Btu/(h ft² °F)"], 2326.0 * POUND / (3600.0 * FOOT * FOOT) * 1.8),
];
static ENERGY: [Unit; 5] = [
    unit("J", &[], 1.0),
    unit("kJ", &[], 1e3),
    unit("MJ", &[], 1e6),
    unit("Btu", &[], BTU),
    unit("kBtu", &[], 1e3 * BTU),
];
static HEAT_CAPACITY: [Unit; 2] = [unit("J/K", &[], 1.0), unit("kJ/K", &["kJ/°C"], 1e3)];
static EXPANSION: [Unit; 2] = [
    unit("1/K", &["/K"], 1.0),
    // Written the way handbooks print it.
    unit("µm/(m·K)", &["um/(m K)", "µm/(m K)", "um/m/K"], 1e-6),
];
static SWELL: [Unit; 3] = [
    unit("1/Pa", &[], 1.0),
    unit("%/bar", &["% per bar", "%/100 kPa", "% per 100 kPa"], 1e-7),
    unit("%/psi", &["% per psi"], 0.01 / PSI),
];
static SONIC: [Unit; 2] =
    [unit("m³/(s·Pa)", &[], 1.0), unit("L/(s·bar)", &["l/(s·bar)", "dm³/(s·bar)", "L/(s bar)"], 1e-8)];
static MASS_FLUX: [Unit; 1] = [unit("kg/(m²·s)", &["kg/(m2 s)"], 1.0)];
static TORQUE: [Unit; 3] = [
    unit("N·m", &["Nm", "N m"], 1.0),
    unit("lbf·in", &["lb in", "in lb", "lbf in", "inlb"], POUND_FORCE * INCH),
    unit("lbf·ft", &["lb ft", "ft lb", "lbf ft", "ftlb"], POUND_FORCE * FOOT),
];
static FORCE: [Unit; 3] = [unit("N", &[], 1.0), unit("kN", &[], 1e3), unit("lbf", &[], POUND_FORCE)];
static LINEAR_RESISTANCE: [Unit; 2] =
    [unit("Pa·s/m³", &["Pa/(m³/s)", "Pa/(m3/s)"], 1.0), unit("Pa/(L/min)", &["Pa/(l/min)"], 60_000.0)];
static QUADRATIC_RESISTANCE: [Unit; 2] =
    [unit("Pa·s²/m⁶", &["Pa/(m³/s)²", "Pa/(m3/s)^2"], 1.0), unit("Pa/(L/min)²", &["Pa/(l/min)^2"], 3.6e9)];
static FUEL_PER_WORK: [Unit; 4] = [
    unit("kg/J", &[], 1.0),
    unit("g/(kW·h)", &["g/kWh", "g/(kWh)", "g/kW/h"], 1e-3 / 3.6e6),
    unit("kg/(kW·h)", &["kg/kWh"], 1.0 / 3.6e6),
    unit("lb/(hp·h)", &["lb/hp/h", "lb/(hp h)"], POUND / (HORSEPOWER * 3600.0)),
];
static STRESS: [Unit; 5] = [
    unit("Pa", &[], 1.0),
    unit("kPa", &[], 1e3),
    unit("MPa", &["N/mm²", "N/mm2"], 1e6),
    unit("GPa", &[], 1e9),
    unit("psi", &["lbf/in²", "lb/in2"], PSI),
];
static STIFFNESS: [Unit; 3] =
    [unit("N/m", &[], 1.0), unit("N/mm", &["kN/m"], 1e3), unit("lbf/in", &["lb/in"], POUND_FORCE / INCH)];
static KINEMATIC_VISCOSITY: [Unit; 2] = [unit("m²/s", &["m2/s"], 1.0), unit("mm²/s", &["mm2/s", "cSt"], 1e-6)];

/// Every unit a kind may be typed in, the coherent SI unit first.
#[must_use]
pub fn units(kind: Kind) -> &'static [Unit] {
    match kind {
        Kind::Length | Kind::Distance | Kind::RoadDistance | Kind::SmallLength | Kind::DropletSize => &LENGTH,
        Kind::Area | Kind::SmallArea => &AREA,
        Kind::Volume | Kind::SmallVolume | Kind::Displacement => &VOLUME,
        Kind::Mass | Kind::SmallMass => &MASS,
        Kind::GasFlow | Kind::CarryOver => &MASS_FLOW,
        Kind::CoolantFlow | Kind::GasVolumeFlow | Kind::FanFlow | Kind::SmallVolumeFlow | Kind::LeakFlow => {
            &VOLUME_FLOW
        }
        Kind::Density => &DENSITY,
        Kind::SpecificHeat => &SPECIFIC_HEAT,
        Kind::SpecificEnergy => &SPECIFIC_ENERGY,
        Kind::Energy => &ENERGY,
        Kind::Viscosity => &VISCOSITY,
        Kind::Conductivity => &CONDUCTIVITY,
        Kind::Power => &POWER,
        Kind::RoadSpeed | Kind::GasSpeed => &SPEED,
        Kind::Acceleration => &ACCELERATION,
        Kind::RotationalSpeed => &ROTATION,
        Kind::Time | Kind::Duration => &TIME,
        Kind::Angle => &ANGLE,
        Kind::Number => &RATIO,
        Kind::Share => &SHARE,
        Kind::Temperature => &TEMPERATURE,
        Kind::TemperatureDifference => &TEMPERATURE_DIFFERENCE,
        Kind::AbsolutePressure
        | Kind::GaugePressure
        | Kind::CrankcasePressure
        | Kind::PressureDifference
        | Kind::SmallPressureDifference => &PRESSURE,
        Kind::HeatConductance => &CONDUCTANCE,
        Kind::HeatTransfer => &HEAT_TRANSFER,
        Kind::HeatCapacity => &HEAT_CAPACITY,
        Kind::ThermalExpansion => &EXPANSION,
        Kind::Swell => &SWELL,
        Kind::SonicConductance => &SONIC,
        Kind::MassFlux => &MASS_FLUX,
        Kind::Torque => &TORQUE,
        Kind::Force => &FORCE,
        Kind::LinearResistance => &LINEAR_RESISTANCE,
        Kind::QuadraticResistance => &QUADRATIC_RESISTANCE,
        Kind::FuelPerWork => &FUEL_PER_WORK,
        Kind::KinematicViscosity => &KINEMATIC_VISCOSITY,
        Kind::Stress => &STRESS,
        Kind::Stiffness => &STIFFNESS,
    }
}
